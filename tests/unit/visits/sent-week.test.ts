import { describe, expect, it } from 'vitest';
import { drawnWeek, sentWeek, type WeekVisit } from '@/app/(staff)/week/_components/sent-week';
import { localDate } from '@/lib/core/calendar';

const uuid = (n: number) => `9a0446d3-943e-47aa-809f-${String(n).padStart(12, '0')}`;
const day = (n: number) => localDate(`2026-11-${23 + (n % 5)}`);
const DONE = { shape: 'done', tone: 'soft', label: 'Done' } as const;

const visit = (n: number, more: Partial<WeekVisit> = {}): WeekVisit => ({
  key: uuid(n),
  technicianId: uuid(900 + (n % 16)),
  date: day(n),
  from: 480 + (n % 30),
  to: 540 + (n % 40),
  driveMinutes: 12.345678901234,
  time: '8:00–9:15 AM',
  customer: `Customer ${n % 50}`,
  kitchen: `Kitchen ${n % 150}`,
  units: 1 + (n % 7),
  tasks: 2 + (n % 9),
  timeZone: 'America/Denver',
  version: 3,
  marks: [{ ...DONE }],
  ...more,
});

describe('A week as it is sent', () => {
  it('is drawn as it was: whole, in its order, each with what is its own', () => {
    const late = { shape: 'late', tone: 'alarm', label: '9 min short for the drive' } as const;
    const week = [
      visit(1, { marks: [late, DONE], kitchen: 'Same', customer: 'Same', units: 1, tasks: 1 }),
      visit(17, { version: null, driveMinutes: null, marks: [], date: localDate('2026-11-29'), to: 1500 }),
      visit(2, { timeZone: 'America/Phoenix', kitchen: 'Same', customer: 'Another', units: 1200, marks: [DONE] }),
    ];
    const drawn = drawnWeek(sentWeek(week));
    const asItWas = week.map(({ units: _, tasks: __, ...v }) => ({
      ...v,
      driveMinutes: v.driveMinutes && 12,
      look: 'stands',
      href: `/week/${v.key}`,
    }));
    expect(drawn).toEqual([
      { ...asItWas[0], work: '1 unit, 1 task', movable: true },
      { ...asItWas[1], work: '4 units, 10 tasks', movable: false },
      { ...asItWas[2], work: '1,200 units, 4 tasks', movable: true },
    ]);
  });

  it('costs a visit little more than its own name and time, however many there are', () => {
    const bytes = (n: number) => JSON.stringify(JSON.stringify(sentWeek(Array.from({ length: n }, (_, i) => visit(i))))).length;
    // 36 of them are the visit's id. As objects with a name beside each figure they took 400.
    expect((bytes(800) - bytes(400)) / 400).toBeLessThan(110);
  });

  it('leaves out nothing where nobody has a visit', () => {
    expect(drawnWeek(sentWeek([]))).toEqual([]);
  });
});
