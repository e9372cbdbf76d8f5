import { fromDay } from '@/lib/core/calendar';
import { dayWords } from '@/lib/core/calendar/when';
import type { VisitReason } from '@/lib/core/planning';
import { counted } from '@/lib/core/wording/counted';

/** "3 tasks overdue, the oldest by 24 days; 2 due this week; 1 taken along". */
function reasonWords(r: VisitReason): string {
  const parts = [
    r.overdue > 0
      ? `${counted(r.overdue, 'task')} overdue, ${r.overdue === 1 ? 'by' : 'the oldest by'} ${counted(r.longestOverdueDays, 'day')}`
      : '',
    r.due > 0 ? `${r.due} due this week` : '',
    r.along > 0 ? `${r.along} taken along, due up to ${counted(r.furthestDays, 'day')} later` : '',
  ].filter(Boolean);
  return parts.join('; ');
}

/** What one proposed visit is for, and what it adds to the week. */
export function WhatFor({ reason: r, currency }: { reason: VisitReason | undefined; currency: string }) {
  if (!r) return <span className="text-soft">Proposed before reasons were kept.</span>;
  const money = (x: number) => `${Math.round(x)} ${currency}`;
  return (
    <>
      <span className="block">{reasonWords(r)}.</span>
      {r.only ? (
        <span className="block text-sm">
          Only {r.only}.{' '}
          {r.nextDueDay === null
            ? 'Nothing else falls due there within the next weeks.'
            : `Next there: ${dayWords(fromDay(r.nextDueDay))}.`}
        </span>
      ) : null}
      <span className="block text-sm text-soft">
        {r.detourMinutes < 1 ? 'No driving added' : `${Math.round(r.detourMinutes)} min of driving added, ${money(r.drivingCost)}`}
        {r.earlyCost >= 0.5 ? `; ${money(r.earlyCost)} of intervals given away by coming early` : ''}.
      </span>
    </>
  );
}
