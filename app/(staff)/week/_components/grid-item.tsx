'use client';

import Link from 'next/link';
import type { DragEvent, KeyboardEvent } from 'react';
import type { LocalDate } from '@/lib/core/calendar';
import { State, type Mark } from '@/app/_ui/states/state';

export type GridVisit = {
  key: string;
  technicianId: string;
  date: LocalDate;
  /** Minutes of the shop's day. */
  from: number;
  to: number;
  driveMinutes: number | null;
  href: string;
  /** "08:00–09:15", by the kitchen's clock. */
  time: string;
  customer: string;
  kitchen: string;
  work: string;
  marks: Mark[];
  look: 'stands' | 'proposed' | 'left';
  movable: boolean;
};

const LOOK = {
  stands: 'border-edge bg-sheet hover:border-cold',
  proposed: 'border-dashed border-cold border-2 bg-cold-wash',
  left: 'border-dotted border-edge bg-sunk text-soft line-through',
} as const;

type Props = {
  visit: GridVisit;
  share: (minutes: number) => number;
  onKeyDown: (e: KeyboardEvent<HTMLAnchorElement>) => void;
  onBlur: () => void;
  onDragStart?: (e: DragEvent<HTMLAnchorElement>) => void;
};

/** A visit on its line, as long as it lasts, with the drive before it. */
export function GridItem({ visit: v, share, onKeyDown, onBlur, onDragStart }: Props) {
  const left = share(v.from);
  const [begins, ends] = v.time.split('–');
  const drive = v.driveMinutes ? Math.round(v.driveMinutes) : 0;
  return (
    <>
      {drive > 0 ? (
        <li
          className="drive-before"
          style={{ left: `${share(v.from - drive)}%`, width: `${left - share(v.from - drive)}%` }}
          title={`${drive} min drive`}
        >
          <span className="sr-only max-md:not-sr-only">{drive} min drive</span>
          <span aria-hidden="true" className="rounded bg-sheet/80 px-0.5 max-md:hidden">
            {drive >= 15 ? drive : ''}
          </span>
        </li>
      ) : null}
      <li
        className="absolute inset-y-1 z-1 min-w-8 focus-within:z-10 hover:z-10 max-md:static max-md:w-full!"
        style={{ left: `${left}%`, width: `max(2rem, ${share(v.to) - left}%)` }}
      >
        <Link
          href={v.href}
          draggable={onDragStart !== undefined}
          onDragStart={onDragStart}
          onKeyDown={onKeyDown}
          onBlur={onBlur}
          title={[`${v.time} ${v.customer}`, v.kitchen === v.customer ? '' : v.kitchen, v.work, ...v.marks.map((m) => m.label)]
            .filter(Boolean)
            .join('\n')}
          className={`visit-on-line ${LOOK[v.look]}`}
        >
          {/* Where both ends have no room, the second wraps out of sight and the first stands whole. */}
          <span className="block max-h-[1.25em] shrink-0 overflow-hidden font-bold max-md:max-h-none">
            {v.marks.slice(0, 2).map((m) => (
              <span key={m.label} className="mr-1">
                <State shape={m.shape} tone={m.tone}>
                  <span className="sr-only">{m.label}.</span>
                </State>
              </span>
            ))}
            <span className="whitespace-nowrap">{begins}</span>
            <wbr />
            <span className="whitespace-nowrap">{`–${ends}`}</span>
          </span>
          <span className="truncate">{v.kitchen === v.customer ? v.customer : `${v.kitchen}`}</span>
          <span className="truncate text-soft">
            {v.kitchen === v.customer ? '' : `${v.customer}, `}
            {v.work}
          </span>
          <span className="sr-only max-md:not-sr-only">{v.marks.map((m) => m.label).join('. ')}</span>
        </Link>
      </li>
    </>
  );
}
