import { TRIP_CAUSE_LABEL, TRIP_CAUSES, type TripCause } from '@/lib/core/findings/trip-causes';
import { ENTERED_EVENTS, UNIT_EVENT_LABEL, type EnteredEvent, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet';
import { useDraft } from '../../_lib/use-draft';
import { useWrite } from '../../_lib/use-write';
import { EntryMark } from '../entry-mark';
import { Chip, Fold, TouchField } from '../touch';

type Happened = { kind: EnteredEvent | null; note: string; cause: TripCause | 'unknown' | null };
const NOTHING: Happened = { kind: null, note: '', cause: null };

/** What happened to the unit and changes how its readings are to be read: a trip and its cause, a new fan, more grease from now on. */
export function Events({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const { write, busy, now } = useWrite(visit.id);
  const { draft, setDraft, clear } = useDraft<Happened>(`${visit.id}:${unit.id}:event`, NOTHING);
  const { kind, note, cause } = draft;
  const trip = kind === 'high_pressure_trip';
  const list = visit.entries.events.filter((e) => e.unitId === unit.id);
  const add = async () => {
    if (!kind) return;
    const behind = trip && cause && cause !== 'unknown' ? cause : null;
    if (await write('event.add', { unitId: unit.id, kind, at: now(), note: note.trim(), cause: behind })) clear();
  };
  return (
    <Fold summary="Trip, washed through, more grease, part replaced" short="Trip, washed through …" open={list.length > 0}>
      <div className="px-4 pb-4">
        <ul className="mb-3 flex flex-col divide-y divide-line">
          {list.map((e) => (
            <li key={e.id} className="flex min-h-12 flex-wrap items-center justify-between gap-x-4">
              <span>
                <b>{UNIT_EVENT_LABEL[e.kind]}</b> {e.cause ? `behind it: ${TRIP_CAUSE_LABEL[e.cause].toLowerCase()}. ` : ''}
                {e.note}
              </span>
              <span className="flex items-center gap-2">
                <EntryMark id={e.id} />
                <Chip
                  disabled={busy}
                  onClick={() => void write('entry.strike', { what: 'event', entryId: e.id, why: 'Entered by mistake' })}
                >
                  Take back
                </Chip>
              </span>
            </li>
          ))}
        </ul>
        <div role="group" aria-label="What happened" className="mb-3 flex flex-wrap gap-2">
          {ENTERED_EVENTS.map((k) => (
            <Chip key={k} on={kind === k} onClick={() => setDraft({ ...draft, kind: k })}>
              {UNIT_EVENT_LABEL[k]}
            </Chip>
          ))}
        </div>
        {trip ? (
          <fieldset className="mb-3">
            <legend className="mb-1">What was behind it? Only a dirty coil makes cleaning come sooner.</legend>
            <div className="flex flex-wrap gap-2">
              {TRIP_CAUSES.map((c) => (
                <Chip key={c} on={cause === c} onClick={() => setDraft({ ...draft, cause: c })}>
                  {TRIP_CAUSE_LABEL[c]}
                </Chip>
              ))}
              <Chip on={cause === 'unknown'} onClick={() => setDraft({ ...draft, cause: 'unknown' })}>
                Not known yet
              </Chip>
            </div>
          </fieldset>
        ) : null}
        <TouchField
          id="event-note"
          label="What you know of it"
          value={note}
          maxLength={500}
          onChange={(e) => setDraft({ ...draft, note: e.target.value })}
        />
        <Chip
          className="mt-3"
          disabled={busy || !kind || (trip && !cause) || (kind === 'note' && note.trim().length < 3)}
          onClick={() => void add()}
        >
          Keep it
        </Chip>
      </div>
    </Fold>
  );
}
