import { LEFT_HOW, type LeftHow, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet';
import { useWrite } from '../../_lib/use-write';
import { Chip } from '../touch';

/** A unit that is not simply left running: one tap says so to the office, and how soon somebody must come. */
export function HowLeft({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const { writeAll, busy, now } = useWrite(visit.id);
  const said = new Set(visit.entries.followUps.filter((f) => f.unitId === unit.id).map((f) => f.what));
  const say = async ({ what, urgency, event }: LeftHow) => {
    const followUp = { kind: 'follow_up.add' as const, payload: { unitId: unit.id, what, urgency, note: '' } };
    const trip = event && { kind: 'event.add' as const, payload: { unitId: unit.id, kind: event, at: now(), note: what, cause: null } };
    await writeAll(trip ? [trip, followUp] : [followUp]);
  };
  return (
    <div
      role="group"
      aria-label="How it is left"
      className="grid grid-cols-3 items-stretch gap-2 rounded-lg border border-edge bg-sheet p-2.5 sm:flex sm:flex-wrap sm:items-center sm:px-4 sm:py-2"
    >
      <b className="col-span-full mr-auto">Not simply running?</b>
      {LEFT_HOW.map((l) => (
        <Chip
          key={l.what}
          className="leading-tight max-sm:px-1.5 max-sm:text-sm"
          on={said.has(l.what)}
          disabled={busy || said.has(l.what)}
          onClick={() => void say(l)}
        >
          {l.label}
        </Chip>
      ))}
    </div>
  );
}
