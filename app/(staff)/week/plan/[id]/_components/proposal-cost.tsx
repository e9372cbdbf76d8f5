import { counted } from '@/lib/core/wording/counted';
import type { Proposal } from '@/lib/core/planning/proposal';

const hours = (minutes: number) => `${Math.floor(minutes / 60)} h ${String(Math.round(minutes % 60)).padStart(2, '0')} min`;
/** Beyond this share of all driving the bound is too loose to say anything. */
const TELLING = 0.2;

/** How much a better plan could save, where that is known closely enough to be worth saying. */
function couldBeBetter({ proven, couldSaveMinutes: m, cost }: Proposal): string | null {
  if (proven) return 'no plan needs less';
  return m !== null && m <= TELLING * cost.drivingMinutes ? `at most ${hours(Math.ceil(m))} less` : null;
}

/** What the proposal amounts to. */
export function ProposalCost({ proposal: p }: { proposal: Proposal }) {
  const better = couldBeBetter(p);
  const done = p.visits.reduce((sum, v) => sum + v.taskIds.length, 0);
  const facts: [string, string][] = [
    ['Visits', `${p.visits.length} new${p.kept ? `, ${p.kept} booked already` : ''}`],
    ['Tasks on them', `${done}${p.due.tasks > 0 ? `; ${p.due.tasks} due` : ''}`],
    ['Driving', `${hours(p.cost.drivingMinutes)}${better ? ` (${better})` : ''}`],
    ...(p.cost.latenessMinutes > 0 ? [['Late at booked visits', hours(p.cost.latenessMinutes)] as [string, string]] : []),
    ...(p.cost.overtimeMinutes > 0 ? [['Over shift', hours(p.cost.overtimeMinutes)] as [string, string]] : []),
    ...(p.later > 0 ? [['Not due yet, not taken along', counted(p.later, 'task')] as [string, string]] : []),
  ];
  return (
    <dl className="grid grid-cols-2 gap-x-8 gap-y-3 rounded-lg border border-line bg-sheet p-5 sm:grid-cols-3 xl:grid-cols-6">
      {facts.map(([name, value]) => (
        <div key={name}>
          <dt className="text-sm text-soft">{name}</dt>
          <dd className="font-bold">{value}</dd>
        </div>
      ))}
    </dl>
  );
}
