'use client';

import { useState, type DragEvent, type KeyboardEvent } from 'react';
import type { LocalDate } from '@/lib/core/calendar';
import { dayWords } from '@/lib/core/calendar/when';
import { counted } from '@/lib/core/wording/counted';
import { hourOfDay, timeOfDay } from '@/lib/core/calendar/at-offset';
import { clockOf } from '@/lib/core/calendar/zone';
import { type MinuteSpan } from '@/lib/core/visits/time-grid';
import { groupBy } from '@/lib/core/numerics/group-by';
import { GridItem, percent, type GridVisit } from './grid-item';

export type GridRow = { id: string; name: string; works: boolean; days: { shifts: MinuteSpan[]; off: string | null }[] };
export type Target = { key: string; technicianId: string; date: LocalDate; from: string };

type Props = {
  label: string;
  days: LocalDate[];
  today: LocalDate;
  rows: GridRow[];
  items: GridVisit[];
  hours: MinuteSpan;
  /** Where a visit was put, by hand or by key; it is not moved yet. */
  onPut?: (target: Target) => void;
};

const STEP = 15;
const OPEN_UP_TO = 20;

type Spot = { row: number; day: number; from: number };
const WAY: Record<string, { lines: number; minutes: number }> = {
  ArrowDown: { lines: 1, minutes: 0 },
  ArrowUp: { lines: -1, minutes: 0 },
  ArrowRight: { lines: 0, minutes: STEP },
  ArrowLeft: { lines: 0, minutes: -STEP },
};

/** To a whole step within the day. */
const inDay = (minutes: number) => Math.min(24 * 60 - STEP, Math.max(0, Math.round(minutes / STEP) * STEP));

/** One step with an arrow key: up and down go through the lines of all days. */
function stepped(at: Spot, key: string, days: number, rows: number): Spot {
  const { lines, minutes } = WAY[key] ?? { lines: 0, minutes: 0 };
  const line = Math.min(days * rows - 1, Math.max(0, at.day * rows + at.row + lines));
  return { day: Math.floor(line / rows), row: line % rows, from: inDay(at.from + minutes) };
}

/**
 * The week as a picture of time: days down, hours across, a line a technician. Visits are drawn as long as they last,
 * with the drive before each. A visit is dragged to another time or line, or moved there with Alt and the arrows.
 */
export function TimeGrid({ label, days, today, rows, items, hours, onPut }: Props) {
  const [held, setHeld] = useState<{ key: string; row: number; day: number; from: number } | null>(null);
  // On a phone the days are lists: of many visits only today's, or the first with any, stands open, and none that fills screens.
  const [opened, setOpened] = useState<ReadonlySet<string> | null>(null);
  const first = days.includes(today) ? today : days.find((d) => items.some((v) => v.date === d));
  const byDay = groupBy(items, (v) => v.date);
  const byLine = groupBy(
    items.toSorted((a, b) => a.from - b.from),
    (v) => `${v.date} ${v.technicianId}`,
  );
  const onLine = (d: LocalDate, technicianId: string) => byLine.get(`${d} ${technicianId}`) ?? [];
  const on = (d: LocalDate) => byDay.get(d)?.length ?? 0;
  const isOpen = (d: LocalDate) => (opened ? opened.has(d) : items.length <= OPEN_UP_TO || (d === first && on(d) <= OPEN_UP_TO));
  const turn = (d: LocalDate) => setOpened(new Set(days.filter((x) => (x === d ? !isOpen(x) : isOpen(x)))));
  const [grab, setGrab] = useState({ key: '', at: 0 });
  const span = hours.to - hours.from;
  const share = (minutes: number) => (100 * (Math.min(hours.to, Math.max(hours.from, minutes)) - hours.from)) / span;
  const marks = Array.from({ length: span / 60 + 1 }, (_, i) => hours.from / 60 + i);
  const heldAt = held ? `${dayWords(days[held.day] ?? today)}, ${timeOfDay(held.from)}, ${rows[held.row]?.name ?? ''}` : '';

  const put = (key: string, row: number, day: number, from: number) => {
    const [r, d] = [rows[row], days[day]];
    setHeld(null);
    if (r?.works && d) onPut?.({ key, technicianId: r.id, date: d, from: clockOf(from) });
  };

  function onKey(e: KeyboardEvent, v: GridVisit) {
    if (!onPut || !v.movable) return;
    const at =
      held?.key === v.key
        ? held
        : { key: v.key, row: rows.findIndex((r) => r.id === v.technicianId), day: days.indexOf(v.date), from: v.from };
    const takes = e.key === 'm' && !e.metaKey && !e.ctrlKey;
    if (takes || (held?.key === v.key && e.key === 'Enter')) {
      e.preventDefault();
      return put(v.key, at.row, at.day, at.from);
    }
    if (e.key === 'Escape') return setHeld(null);
    if (!e.altKey || !e.key.startsWith('Arrow')) return;
    e.preventDefault();
    setHeld({ key: v.key, ...stepped(at, e.key, days.length, rows.length) });
  }

  function timeAt(e: DragEvent<HTMLElement>, offset: number): number {
    const box = e.currentTarget.getBoundingClientRect();
    const minutes = hours.from + ((e.clientX - box.left) / box.width) * span - offset;
    return inDay(minutes);
  }

  return (
    <section aria-label={label}>
      {onPut ? (
        <p className="mb-2 text-sm text-soft max-md:hidden">
          Drag a visit to another time or person, or press M on it; Alt with the arrows moves it step by step.
        </p>
      ) : null}
      <p role="status" className={held ? 'mb-2 font-bold' : 'sr-only'}>
        {held ? `To ${heldAt}. Enter to go on, Escape to leave it.` : ''}
      </p>
      <div className="flex flex-col gap-4">
        {days.map((d, day) => (
          <div
            key={d}
            role="group"
            aria-labelledby={`day-${d}`}
            className={`rounded-lg border bg-sheet ${d === today ? 'border-cold border-2' : 'border-line'}`}
          >
            <div className="flex items-end border-b border-line">
              <h3 id={`day-${d}`} className={`w-32 shrink-0 px-3 py-1.5 max-md:w-auto ${d === today ? 'text-cold' : ''}`}>
                {dayWords(d)}
                {d === today ? ', today' : ''}
              </h3>
              {items.length > OPEN_UP_TO ? (
                <button
                  type="button"
                  className="ml-auto min-h-11 px-3 text-cold underline md:hidden"
                  aria-expanded={isOpen(d)}
                  onClick={() => turn(d)}
                >
                  {counted(on(d), 'visit')}
                  <span className="sr-only"> on {dayWords(d)}</span>
                </button>
              ) : null}
              <div className="relative h-5 grow max-md:hidden" aria-hidden="true">
                {marks.map((h) => (
                  <span
                    key={h}
                    className="absolute bottom-0 -translate-x-1/2 text-xs text-soft first:translate-x-0 last:-translate-x-full"
                    style={{ left: percent(share(h * 60)) }}
                  >
                    {hourOfDay(h)}
                  </span>
                ))}
              </div>
            </div>
            {rows.map((r, row) => {
              const own = onLine(d, r.id);
              const { shifts, off } = r.days[day] ?? { shifts: [], off: null };
              const ghost = held && held.row === row && held.day === day ? items.find((v) => v.key === held.key) : undefined;
              return (
                <div key={r.id} className={`day-line ${isOpen(d) && own.length > 0 ? 'max-md:block' : 'max-md:hidden'}`}>
                  <div>
                    {r.name}
                    {off ? <span className="block font-normal text-alarm">{off}</span> : null}
                    {!off && r.works && shifts.length === 0 ? <span className="block font-normal text-soft">No shift</span> : null}
                    {r.works ? null : <span className="block font-normal text-soft">No technician now</span>}
                  </div>
                  <ul
                    onDragOver={(e) => {
                      if (onPut && r.works && grab.key) e.preventDefault();
                    }}
                    onDrop={(e) => {
                      e.preventDefault();
                      if (grab.key) put(grab.key, row, day, timeAt(e, grab.at));
                      setGrab({ key: '', at: 0 });
                    }}
                  >
                    {shifts.map((s) => (
                      <li
                        key={s.from}
                        aria-hidden="true"
                        className="shift-on-line"
                        style={{ left: percent(share(s.from)), width: percent(share(s.to) - share(s.from)) }}
                      />
                    ))}
                    <li aria-hidden="true" className="hour-lines" style={{ backgroundSize: `${percent(6000 / span)} 100%` }} />
                    {own.map((v) => (
                      <GridItem
                        key={v.key}
                        visit={v}
                        share={share}
                        onKeyDown={(e) => onKey(e, v)}
                        onBlur={() => setHeld(null)}
                        onDragStart={
                          onPut && v.movable
                            ? (e) => {
                                e.dataTransfer.setData('text/plain', v.key);
                                e.dataTransfer.effectAllowed = 'move';
                                const box = e.currentTarget.getBoundingClientRect();
                                setGrab({ key: v.key, at: ((e.clientX - box.left) / box.width) * (v.to - v.from) });
                              }
                            : undefined
                        }
                      />
                    ))}
                    {ghost && held ? (
                      <li
                        aria-hidden="true"
                        className="pointer-events-none absolute inset-y-1 rounded-md border-2 border-dashed border-cold max-md:hidden"
                        style={{ left: `${share(held.from)}%`, width: `${share(held.from + ghost.to - ghost.from) - share(held.from)}%` }}
                      />
                    ) : null}
                    {own.length === 0 ? <li className="sr-only">Nothing booked</li> : null}
                  </ul>
                </div>
              );
            })}
            {isOpen(d) ? <Free rows={rows} day={day} busy={new Set((byDay.get(d) ?? []).map((v) => v.technicianId))} /> : null}
          </div>
        ))}
      </div>
    </section>
  );
}

/** On a phone who has nothing booked on a day is one line. */
function Free({ rows, day, busy }: { rows: GridRow[]; day: number; busy: ReadonlySet<string> }) {
  const free = rows.filter((r) => r.works && !busy.has(r.id));
  if (free.length === 0) return null;
  const why = (r: GridRow) => r.days[day]?.off ?? (r.days[day]?.shifts.length === 0 ? 'no shift' : null);
  return (
    <p className="px-3 py-2 text-sm text-soft md:hidden">
      Nothing booked: {free.map((r) => (why(r) ? `${r.name} (${why(r)})` : r.name)).join(', ')}
    </p>
  );
}
