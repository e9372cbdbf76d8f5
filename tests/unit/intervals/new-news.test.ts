import { describe, expect, it } from 'vitest';
import { nextDue, type LocalDate } from '@/lib/core/calendar';
import { failurePosterior, posterior, DEFAULT_HYPER, type UnitEvent } from '@/lib/core/fouling';
import { DEFAULT_POLICY, reviseCoilRule, reviseInspectionRule } from '@/lib/core/intervals';

const day = (n: number) => new Date(Date.UTC(2025, 0, 1 + n)).toISOString().slice(0, 10) as LocalDate;
const EXPOSURE = { placement: 'bar', kitchenId: 'k' } as const;
const believed = (events: UnitEvent[]) => posterior({ startedOn: day(0), startedClean: true, events }, EXPOSURE, DEFAULT_HYPER);
const cleaned = (on: number, grade: 'filmed' | 'packed'): UnitEvent[] => [
  { kind: 'coil', on: day(on), grade, phase: 'before' },
  { kind: 'cleaning', on: day(on) },
  { kind: 'coil', on: day(on), grade: 'bare', phase: 'after' },
];

describe('a change that somebody told of', () => {
  const before = [...cleaned(100, 'filmed'), ...cleaned(200, 'filmed'), ...cleaned(300, 'filmed')];
  it('about doubles the rate, or halves it, and leaves the deposit that is there', () => {
    const still = believed(before);
    const more = believed([...before, { kind: 'change', on: day(300), said: 'more' }]);
    const less = believed([...before, { kind: 'change', on: day(300), said: 'less' }]);
    expect(more.rate.mean / still.rate.mean).toBeGreaterThan(1.6);
    expect(more.rate.mean / still.rate.mean).toBeLessThan(3.2);
    expect(less.rate.mean).toBeLessThan(0.8 * still.rate.mean);
    expect(more.lnK.mean).toBeCloseTo(still.lnK.mean, 3);
  });
});

describe('a rule with an end', () => {
  const events = [...cleaned(100, 'packed')];
  const revised = (currentRule: string) =>
    reviseCoilRule({
      currency: 'USD',
      currentRule, anchor: 'last_completed', lastDoneOn: day(100), history: { startedOn: day(0), startedClean: true, events },
      posterior: believed(events), hyper: DEFAULT_HYPER, settings: DEFAULT_POLICY,
    }); // prettier-ignore

  it.each(['UNTIL=20261231', 'COUNT=6'])('keeps %s through a change', (end) => {
    const r = revised(`FREQ=WEEKLY;INTERVAL=26;${end}`);
    expect(r.changed).toBe(true);
    expect(r.rule).toMatch(new RegExp(`^FREQ=WEEKLY;INTERVAL=\\d+;${end}$`));
    expect(nextDue({ rule: r.rule, anchor: 'last_completed', anchorDate: day(0), lastDoneOn: day(100) })).toBe(r.dueOn);
  });
});

describe('a dead fan at the evaporator', () => {
  const looks = [100, 190, 280, 370].map((n) => ({ on: day(n), aspect: 'ice' as const, grade: 'dry' }));
  const group = { aspect: 'ice', kind: 'reach_in' } as const;
  const revised = (broken: { on: LocalDate; what: string }[]) =>
    reviseInspectionRule({
      task: 'evaporator_inspection', currentRule: 'FREQ=WEEKLY;INTERVAL=6', anchor: 'last_completed', lastDoneOn: day(370), looks, broken,
      posterior: failurePosterior(group, day(0), looks), settings: DEFAULT_POLICY, lastRevisedOn: day(280),
    }); // prettier-ignore

  it('never loosens the evaporator’s rule', () => {
    expect(revised([]).weeks).toBeGreaterThan(6);
    expect(revised([{ on: day(370), what: 'Evaporator fan failed' }])).toMatchObject({ changed: false, guard: 'needs_clean_findings' });
    expect(revised([{ on: day(190), what: 'Evaporator fan failed' }]).weeks).toBeGreaterThan(6);
  });
});
