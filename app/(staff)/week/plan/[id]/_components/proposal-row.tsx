import type { ProposedVisit } from '@/lib/core/planning/proposal';
import { momentIn, momentSpanIn } from '@/lib/core/calendar/when';
import { counted } from '@/lib/core/wording/counted';
import { Button } from '@/app/_ui/buttons/button';
import { WhatFor } from './visit-reason';
import { kitchenInFull } from '@/lib/core/wording/kitchen-name';

/** What was changed of a proposed visit before accepting. */
export type Change = { technicianId?: string; startMs?: number; fixed?: boolean };
export type RowVisit = ProposedVisit & { wasMs: number; fixed: boolean; changed: boolean; altered: boolean };

export const anchorOf = (key: string): string => `v-${key.replace(/\W/g, '-')}`;

type Props = {
  visit: RowVisit;
  taken: boolean;
  /** Why it could not be booked. */
  refused: string | undefined;
  open: boolean;
  currency: string;
  people: { id: string; name: string }[];
  onTake: () => void;
  onChange: (by: Change) => void;
  onAsProposed: () => void;
};

/** One proposed visit: whether it is taken, what it is for, and what can be changed of it. */
export function ProposalRow({ visit: v, taken, refused, open, currency, people, onTake, onChange, onAsProposed }: Props) {
  const anchor = anchorOf(v.key);
  const place = kitchenInFull(v);
  return (
    <li
      id={anchor}
      className="grid scroll-mt-4 grid-cols-[1.75rem_minmax(0,1fr)] gap-x-3 gap-y-2 border-b border-line py-3 last:border-0 target:bg-cold-wash lg:grid-cols-[1.75rem_minmax(0,17rem)_minmax(0,1fr)_auto]"
    >
      <input type="checkbox" className="mt-1 size-5" id={`take-${anchor}`} checked={taken} disabled={!open} onChange={onTake} />
      <div>
        <label htmlFor={`take-${anchor}`} className="font-bold">
          {place}
        </label>
        <span className="block">{momentSpanIn(v.startMs, v.endMs, v.timeZone)}</span>
        <span className="block text-sm text-soft">
          {counted(v.units, 'unit')}, {counted(v.taskIds.length, 'task')}, {Math.round(v.driveMinutes)} min drive there
        </span>
        {refused ? <span className="block font-bold text-alarm">{refused}</span> : null}
      </div>
      <div className="max-lg:col-start-2">
        <WhatFor reason={v.reason} currency={currency} />
        {v.changed ? (
          <span className="block text-sm font-bold">
            Changed by hand: it was {momentIn(v.wasMs, v.timeZone)}, {v.technician}. The drive is not worked out anew.
          </span>
        ) : null}
      </div>
      {open ? (
        <div className="flex flex-wrap items-start gap-x-4 gap-y-1 max-lg:col-start-2">
          <label className="flex items-center gap-2 text-sm">
            <span>Who</span>
            <select
              className="min-h-9 rounded-md border border-edge bg-sheet px-2"
              value={v.technicianId}
              onChange={(e) => onChange({ technicianId: e.target.value })}
            >
              {people.map((p) => (
                <option key={p.id} value={p.id}>
                  {p.name}
                </option>
              ))}
            </select>
            <span className="sr-only">goes to {place}</span>
          </label>
          <label className="flex min-h-9 items-center gap-2 text-sm">
            <input type="checkbox" className="size-4" checked={v.fixed} onChange={(e) => onChange({ fixed: e.target.checked })} />
            Fix it<span className="sr-only"> at {place}</span>
          </label>
          {v.altered ? (
            <Button look="quiet" onClick={onAsProposed}>
              As proposed<span className="sr-only"> at {place}</span>
            </Button>
          ) : null}
        </div>
      ) : null}
    </li>
  );
}
