'use client';

import { useState } from 'react';
import { instantOf, todayIn, type LocalDate, clockIn } from '@/lib/core/calendar';
import type { MinuteSpan } from '@/lib/core/visits/time-grid';
import { DropDialog, type Movable } from './drop-dialog';
import type { GridVisit } from './grid-item';
import { TimeGrid, type GridRow, type Target } from './time-grid';

type Props = {
  days: LocalDate[];
  today: LocalDate;
  rows: GridRow[];
  items: GridVisit[];
  hours: MinuteSpan;
  /** The picture's clock; a visit is moved by its kitchen's own. */
  timeZone: string;
  visits: Movable[];
};

/** The week as it stands; a visit put elsewhere is confirmed with a reason before it moves. */
export function Board({ days, today, rows, items, hours, timeZone, visits }: Props) {
  const [target, setTarget] = useState<(Target & { version: number | undefined }) | null>(null);
  // Once it has moved there is nothing left to confirm.
  const visit = target && visits.find((v) => v.id === target.key && v.version === target.version);
  const at = target && instantOf(target.date, target.from, timeZone);
  if (rows.length === 0) return <p className="p-4 text-soft">No technician is on file yet. The owner adds people under People.</p>;
  return (
    <>
      <TimeGrid
        label="The week by technician"
        days={days}
        today={today}
        rows={rows}
        items={items}
        hours={hours}
        onPut={(t) => setTarget({ ...t, version: visits.find((v) => v.id === t.key)?.version })}
      />
      {target && visit && at !== null ? (
        <DropDialog
          key={`${visit.id} ${visit.version} ${target.technicianId} ${target.date} ${target.from}`}
          visit={visit}
          to={{ ...target, date: todayIn(visit.timeZone, at), from: clockIn(visit.timeZone, at) }}
          technicians={rows.filter((t) => t.works).map((t) => ({ value: t.id, label: t.name }))}
          onClose={() => setTarget(null)}
        />
      ) : null}
    </>
  );
}
