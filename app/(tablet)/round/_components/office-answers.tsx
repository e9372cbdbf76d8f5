import { ENTRY_LABEL, type Entry, type VisitOnFile } from '@/lib/core/tablet';
import type { KeptEntry } from '@/lib/tablet/database';
import { unread } from '../_lib/answers';
import { entryWords } from '../_lib/entry-words';
import { useSnapshot, useTablet } from '../_lib/tablet-context';
import { to } from '../_lib/use-place';
import { Chip, ChipLink } from './touch';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

/** What the office said about entries that met with something: a question, or not taken. Of one visit, or of all. */
export function OfficeAnswers({ visitId }: { visitId?: string }) {
  const entries = useSnapshot((s) => s.entries);
  const answers = [...entries.values()].filter((k) => (!visitId || k.visitId === visitId) && unread(k));
  if (answers.length === 0) return null;
  return (
    <section aria-label="What the office said" className="flex flex-col gap-2">
      {answers.map((k) => (
        <Answer key={k.id} kept={k} elsewhere={!visitId} />
      ))}
    </section>
  );
}

/** `elsewhere`: not on its visit, so it is said where it belongs. */
function Answer({ kept, elsewhere }: { kept: KeptEntry; elsewhere: boolean }) {
  const tablet = useTablet();
  const me = useSnapshot((s) => s.me);
  const entries = useSnapshot((s) => s.entries);
  const visit = useSnapshot((s) => s.visits.find((v) => v.id === kept.visitId));
  const { entry } = kept;
  const unitName = (unitId: string) => visit?.units.find((u) => u.id === unitId)?.name ?? nameOfNew(entries, unitId) ?? 'a unit';
  const typed = me ? entryWords(entry, { visit, unitName, me }) : '';
  return (
    <div
      role="status"
      className="flex flex-wrap items-center justify-between gap-3 rounded-md border-2 border-alarm bg-alarm-wash px-4 py-2"
    >
      <p className="min-w-[14rem] flex-1">
        <b className="text-alarm">
          {ENTRY_LABEL[entry.kind]}: {kept.outcome === 'rejected' ? 'not taken by the office.' : 'in the office, with a question.'}
        </b>{' '}
        {kept.note}
        {typed ? (
          <span className="block">
            <b>You wrote:</b> {typed}
          </span>
        ) : null}
      </p>
      {elsewhere && visit ? <ChipLink href={placeOf(entry, visit)}>{fullKitchenName(visit.kitchen)}</ChipLink> : null}
      <Chip onClick={() => void tablet.markSeen(kept.id)}>Read</Chip>
    </div>
  );
}

/** A unit put on file on the spot that the office did not take. */
function nameOfNew(entries: ReadonlyMap<string, KeptEntry>, unitId: string): string | undefined {
  for (const { entry } of entries.values()) if (entry.kind === 'unit.add' && entry.payload.unitId === unitId) return entry.payload.name;
}

function placeOf(entry: Entry, visit: VisitOnFile): string {
  const unitId =
    'unitId' in entry.payload
      ? entry.payload.unitId
      : 'taskId' in entry.payload
        ? visit.tasks.find((t) => t.taskId === (entry.payload as { taskId: string }).taskId)?.unitId
        : null;
  return visit.units.some((u) => u.id === unitId) ? to.unit(visit.id, unitId as string) : to.visit(visit.id);
}
