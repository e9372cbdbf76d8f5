'use client';

import { useMemo, useState } from 'react';
import { instantOf, todayIn, type LocalDate, clockIn } from '@/lib/core/calendar';
import type { MinuteSpan } from '@/lib/core/visits/time-grid';
import { DropDialog } from './drop-dialog';
import { drawnWeek, type SentWeek } from './sent-week';
import { TimeGrid, type GridRow, type Target } from './time-grid';

type Props = {
  days: LocalDate[];
  today: LocalDate;
  rows: GridRow[];
  week: SentWeek;
  hours: MinuteSpan;
  /** The picture's clock; a visit is moved by its kitchen's own. */
  timeZone: string;
};

/** The week as it stands; a visit put elsewhere is confirmed with a reason before it moves. */
export function Board({ days, today, rows, week, hours, timeZone }: Props) {
  const items = useMemo(() => drawnWeek(week), [week]);
  const [target, setTarget] = useState<(Target & { version: number | null }) | null>(null);
  // Once it has moved there is nothing left to confirm.
  const visit = target && items.find((v) => v.movable && v.key === target.key && v.version === target.version);
  const at = target && instantOf(target.date, target.from, timeZone);
  return (
    <>
      <TimeGrid
        label="The week by technician"
        days={days}
        today={today}
        rows={rows}
        items={items}
        hours={hours}
        onPut={(t) => setTarget({ ...t, version: items.find((v) => v.key === t.key)?.version ?? null })}
      />
      {target && visit && visit.version !== null && at !== null ? (
        <DropDialog
          key={`${visit.key} ${visit.version} ${target.technicianId} ${target.date} ${target.from}`}
          visit={{
            id: visit.key,
            version: visit.version,
            kitchen: visit.kitchen,
            customer: visit.customer,
            minutes: Math.round(visit.to - visit.from),
          }}
          to={{ ...target, date: todayIn(visit.timeZone, at), from: clockIn(visit.timeZone, at) }}
          technicians={rows.filter((t) => t.works).map((t) => ({ value: t.id, label: t.name }))}
          onClose={() => setTarget(null)}
        />
      ) : null}
    </>
  );
}
