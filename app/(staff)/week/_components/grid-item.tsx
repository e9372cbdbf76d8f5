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

/** Most stand; how they look is in the style sheet. */
const LOOK = {
  stands: 'visit-on-line',
  proposed: 'visit-on-line border-dashed border-cold border-2 bg-cold-wash',
  left: 'visit-on-line border-dotted border-edge bg-sunk text-soft line-through',
} as const;

type Props = {
  visit: GridVisit;
  /** Percent of the line at a minute of the day. */
  share: (minutes: number) => number;
  onKeyDown: (e: KeyboardEvent<HTMLAnchorElement>) => void;
  onBlur: () => void;
  onDragStart?: (e: DragEvent<HTMLAnchorElement>) => void;
};

/** As finely as a screen shows it. */
export const percent = (share: number) => `${Math.round(share * 100) / 100}%`;

/** A visit on its line, as long as it lasts, with the drive before it. */
export function GridItem({ visit: v, share, onKeyDown, onBlur, onDragStart }: Props) {
  const left = share(v.from);
  const cut = v.time.search(/[\s–]/);
  const drive = v.driveMinutes ? Math.round(v.driveMinutes) : 0;
  return (
    <>
      {drive > 0 ? (
        <li
          className="drive-before"
          style={{ left: percent(share(v.from - drive)), width: percent(left - share(v.from - drive)) }}
          title={`${drive} min drive`}
        >
          <span className="sr-only max-md:not-sr-only">{`${drive} min drive`}</span>
          <span aria-hidden="true">{drive >= 15 ? drive : ''}</span>
        </li>
      ) : null}
      <li className="visit-spot" style={{ left: percent(left), width: `max(2rem, ${percent(share(v.to) - left)})` }}>
        <Link
          href={v.href}
          draggable={onDragStart !== undefined}
          onDragStart={onDragStart}
          onKeyDown={onKeyDown}
          onBlur={onBlur}
          title={[`${v.time} ${v.customer}`, v.kitchen === v.customer ? '' : v.kitchen, v.work, ...v.marks.map((m) => m.label)]
            .filter(Boolean)
            .join('\n')}
          className={LOOK[v.look]}
        >
          {/* Where both ends have no room, all after the first wraps out of sight and that stands whole, behind its marks. */}
          <span>
            <span className="whitespace-nowrap">
              {v.marks.slice(0, 2).map((m) => (
                <State key={m.label} shape={m.shape} tone={m.tone}>
                  <span className="sr-only">{`${m.label}.`}</span>
                </State>
              ))}
              <b>{v.time.slice(0, cut)}</b>
            </span>
            <wbr />
            <b>{v.time.slice(cut)}</b>
          </span>
          <span>{v.kitchen === v.customer ? v.customer : v.kitchen}</span>
          <span>{v.kitchen === v.customer ? v.work : `${v.customer}, ${v.work}`}</span>
          <span className="sr-only max-md:not-sr-only">{v.marks.map((m) => m.label).join('. ')}</span>
        </Link>
      </li>
    </>
  );
}
