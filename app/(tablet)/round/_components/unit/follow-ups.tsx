import { URGENCIES, URGENCY_LABEL, type UnitOnFile, type Urgency, type VisitOnFile } from '@/lib/core/tablet';
import { counted } from '@/lib/core/wording/counted';
import { useDraft } from '../../_lib/use-draft';
import { useWrite } from '../../_lib/use-write';
import { EntryMark } from '../entry-mark';
import { Chip, Fold, TouchButton, TouchField } from '../touch';

type Wanted = { what: string; urgency: Urgency | null };
const NOTHING: Wanted = { what: '', urgency: null };

/** Work that a finding calls for. */
export function FollowUps({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const { write, busy } = useWrite(visit.id);
  const { draft, setDraft, clear } = useDraft<Wanted>(`${visit.id}:${unit.id}:follow-up`, NOTHING);
  const { what, urgency } = draft;
  const list = visit.entries.followUps.filter((f) => f.unitId === unit.id);
  const older = unit.openFollowUps.filter((f) => !list.some((l) => l.what === f.what));
  const add = async () => {
    if (urgency && (await write('follow_up.add', { unitId: unit.id, what: what.trim(), urgency, note: '' }))) clear();
  };
  return (
    <Fold
      summary="Work wanted"
      aside={older.length > 0 ? `${counted(older.length, 'thing')} open from before` : undefined}
      open={list.length > 0}
    >
      <div className="px-4 pb-4">
        {older.length > 0 ? <p className="mb-2 text-soft">Open from before: {older.map((f) => f.what).join('; ')}</p> : null}
        <ul className="mb-3 flex flex-col divide-y divide-line">
          {list.map((f) => (
            <li key={f.id} className="flex min-h-12 flex-wrap items-center justify-between gap-x-4">
              <span>
                <b>{f.what}</b> · {URGENCY_LABEL[f.urgency].toLowerCase()}
              </span>
              <span className="flex items-center gap-2">
                <EntryMark id={f.id} />
                <Chip
                  disabled={busy}
                  onClick={() => void write('entry.strike', { what: 'follow_up', entryId: f.id, why: 'Entered by mistake' })}
                >
                  Take back
                </Chip>
              </span>
            </li>
          ))}
        </ul>
        <TouchField
          id="follow-what"
          label="What is to be done"
          value={what}
          maxLength={300}
          onChange={(e) => setDraft({ ...draft, what: e.target.value })}
        />
        <div role="group" aria-label="How soon" className="my-3 flex flex-wrap gap-2">
          {URGENCIES.map((u) => (
            <Chip key={u} on={urgency === u} onClick={() => setDraft({ ...draft, urgency: u })}>
              {URGENCY_LABEL[u]}
            </Chip>
          ))}
        </div>
        <TouchButton disabled={busy || what.trim().length < 3 || !urgency} onClick={() => void add()}>
          Add it
        </TouchButton>
      </div>
    </Fold>
  );
}
