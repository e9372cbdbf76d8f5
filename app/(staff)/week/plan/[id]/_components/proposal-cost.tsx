import { counted } from '@/lib/core/wording/counted';
import type { Proposal } from '@/lib/core/planning/proposal';

const hours = (minutes: number) => `${Math.floor(minutes / 60)} h ${String(Math.round(minutes % 60)).padStart(2, '0')} min`;

/** What the proposal amounts to, and how far from the best it can be at most. */
export function ProposalCost({ proposal: p }: { proposal: Proposal }) {
  const facts: [string, string][] = [
    ['Visits', `${p.visits.length} new, ${p.kept} kept`],
    ['Driving', hours(p.cost.drivingMinutes)],
    ['Late at fixed visits', p.cost.latenessMinutes > 0 ? hours(p.cost.latenessMinutes) : 'none'],
    ['Over shift', p.cost.overtimeMinutes > 0 ? hours(p.cost.overtimeMinutes) : 'none'],
    ['Left for a later trip', counted(p.later, 'task')],
    [
      'Against the best possible',
      p.proven ? 'this is the best' : p.gap === null ? 'being worked out' : `within ${(p.gap * 100).toFixed(1)} %`,
    ],
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
