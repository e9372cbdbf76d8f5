import { State } from '@/app/_ui/state';
import { counted } from '@/lib/core/wording/counted';
import { PLACEMENT_LABEL, UNIT_KIND_LABEL } from '@/lib/core/equipment/build';
import { ASPECTS } from '@/lib/core/findings/grades';
import type { UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { unlookedFor } from '@/lib/core/tasks';
import { to } from '../../_lib/use-place';

export function UnitRow({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  return (
    <a
      href={to.unit(visit.id, unit.id)}
      className="flex min-h-[4rem] items-center gap-3 rounded-lg border border-line bg-sheet px-4 py-2 text-ink no-underline"
    >
      <span className="min-w-0 flex-1">
        <b className="block leading-tight">{unit.name}</b>
        <span className="text-sm text-soft">
          {UNIT_KIND_LABEL[unit.kind]}, {PLACEMENT_LABEL[unit.placement].toLowerCase()}
          {unit.tag ? <span className="whitespace-nowrap"> · {unit.tag}</span> : null}
        </span>
      </span>
      <span className="shrink-0 text-right text-sm">
        <Progress visit={visit} unit={unit} />
      </span>
    </a>
  );
}

/** Where the unit stands, the worst first. */
function Progress({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const { entries } = visit;
  const outcome = entries.outcomes.find((o) => o.unitId === unit.id)?.outcome;
  if (outcome === 'could_not_reach') return <State shape="off">Could not reach</State>;
  if (outcome === 'gone') return <State shape="off">Gone</State>;
  const tasks = visit.tasks.filter((t) => t.unitId === unit.id);
  const answered = tasks.filter((t) => t.outcome !== 'planned').length;
  if (tasks.some((t) => t.outcome === 'done' && unlookedFor(t, entries.findings).length > 0))
    return (
      <State shape="ask" tone="alarm">
        Low side not looked at
      </State>
    );
  if (tasks.length > 0 && answered === tasks.length)
    return (
      <State shape="done" tone="cold">
        Done
      </State>
    );
  const graded = ASPECTS.filter((a) => entries.findings.some((f) => f.unitId === unit.id && f.aspect === a)).length;
  if (graded > 0 || answered > 0)
    return (
      <State shape="now">
        {graded} of {ASPECTS.length} graded
        {tasks.length ? `, ${answered} of ${counted(tasks.length, 'task')}` : ''}
      </State>
    );
  return tasks.length > 0 ? (
    <State shape="later" tone="soft">
      {counted(tasks.length, 'task')}
    </State>
  ) : null;
}
