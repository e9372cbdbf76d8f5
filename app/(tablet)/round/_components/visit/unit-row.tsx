import { State } from '@/app/_ui/states/state';
import { counted } from '@/lib/core/wording/counted';
import { PLACEMENT_LABEL, UNIT_KIND_LABEL } from '@/lib/core/equipment/build';
import { aspectsOf } from '@/lib/core/findings/for-unit';
import { lacksForTask, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet';
import { to } from '../../_lib/use-place';

export function UnitRow({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  return (
    <a
      href={to.unit(visit.id, unit.id)}
      className="flex min-h-[4rem] items-center gap-3 rounded-lg border border-edge bg-sheet px-4 py-2 text-ink no-underline"
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
  if (tasks.some((t) => t.outcome === 'done' && lacksForTask(visit, unit, t).length > 0))
    return (
      <State shape="ask" tone="alarm">
        Not all looked at
      </State>
    );
  if (tasks.length > 0 && answered === tasks.length)
    return (
      <State shape="done" tone="cold">
        Done
      </State>
    );
  const aspects = aspectsOf(unit).flatMap((s) => s.aspects);
  const graded = aspects.filter((a) => entries.findings.some((f) => f.unitId === unit.id && f.aspect === a)).length;
  if (graded > 0 || answered > 0)
    return (
      <State shape="now">
        {graded} of {aspects.length} graded
        {tasks.length ? `, ${answered} of ${counted(tasks.length, 'task')}` : ''}
      </State>
    );
  return tasks.length > 0 ? (
    <State shape="later" tone="soft">
      {counted(tasks.length, 'task')}
    </State>
  ) : null;
}
