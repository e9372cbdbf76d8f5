'use client';

import type { CustomerReply } from '@/lib/core/visits/events';
import Link from 'next/link';
import { counted } from '@/lib/core/wording/counted';
import { timeIn } from '@/lib/core/calendar/when';
import type { WeeklyWindow } from '@/lib/core/visits/service-hours';
import { HourBar } from './hour-bar';
import { State } from '../../../_ui/state';

export type SlipVisit = {
  id: string;
  version: number;
  startsAt: number;
  endsAt: number;
  timeZone: string;
  serviceHours: readonly WeeklyWindow[];
  /** Minutes on the road from the stop before, or null when that cannot be told. */
  driveMinutes?: number | null;
  kitchen: string;
  customer: string;
  units: number;
  tasks: number;
  status: string;
  fixed: boolean;
  emergency: boolean;
  customerReply: CustomerReply | null;
  /** What speaks against the day it stands on, in words. */
  against: string[];
};

/** A visit on the board; a booked one can be dragged to another cell, or opened and moved by form. */
export function Slip({ visit: v }: { visit: SlipVisit }) {
  const movable = v.status === 'booked';
  return (
    <Link
      href={`/week/${v.id}`}
      draggable={movable}
      onDragStart={(e) => e.dataTransfer.setData('text/plain', v.id)}
      className="block rounded-md border border-edge bg-sheet px-2 py-1.5 text-sm leading-snug text-ink no-underline hover:border-cold"
    >
      <span className="block font-bold">
        {timeIn(v.startsAt, v.timeZone)}–{timeIn(v.endsAt, v.timeZone)}
      </span>
      <span className="block">{v.customer}</span>
      {v.kitchen === v.customer ? null : <span className="block text-soft">{v.kitchen}</span>}
      <span className="block text-soft">
        {counted(v.units, 'unit')}, {counted(v.tasks, 'task')}
      </span>
      <HourBar {...v} />
      {v.against.map((words) => (
        <span key={words} className="block font-bold text-alarm">
          {words}
        </span>
      ))}
      {v.status === 'done' ? (
        <State shape="done" tone="soft">
          Done
        </State>
      ) : null}
      {v.status === 'started' ? (
        <State shape="now" tone="cold">
          Under way
        </State>
      ) : null}
      {v.emergency ? (
        <State shape="late" tone="alarm">
          Emergency
        </State>
      ) : null}
      {v.fixed ? (
        <State shape="held" tone="soft">
          Fixed
        </State>
      ) : null}
      {v.customerReply === 'other_time' ? (
        <State shape="ask" tone="alarm">
          Asks to move
        </State>
      ) : null}
      {v.customerReply === 'confirmed' ? (
        <State shape="done" tone="soft">
          Confirmed
        </State>
      ) : null}
    </Link>
  );
}
