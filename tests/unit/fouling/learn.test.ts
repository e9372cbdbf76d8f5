import { expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import { DEFAULT_HYPER, fitHyper, posterior, type UnitEvent } from '@/lib/core/fouling';
import { learnEyes } from '@/lib/core/fouling/learn';

const START = localDate('2025-01-06');
const events = Array.from({ length: 12 }, (_, i): UnitEvent[] => {
  const on = addDays(START, 60 * (i + 1));
  const slip = i % 4 === 2;
  return [
    { kind: 'coil', on, grade: slip ? 'packed' : 'filmed', phase: 'before', by: i % 2 === 0 ? 'hasty' : 'calm' },
    { kind: 'cleaning', on },
  ];
}).flat();
const history = { startedOn: START, startedClean: true, events };
const exposure = { placement: 'bar', kitchenId: 'k' } as const;

it('learns who writes down grades that say nothing, and then believes that person’s “packed” less', () => {
  const hyper = learnEyes([{ history, exposure }], DEFAULT_HYPER);
  const [hasty, calm] = [hyper.eyes.hasty?.[4] ?? 0, hyper.eyes.calm?.[1] ?? 1];
  expect(hasty).toBeGreaterThan(3 * DEFAULT_HYPER.misread);
  expect(calm).toBeLessThan(DEFAULT_HYPER.misread);
  // What the first "packed" moves; later clean looks refute it by themselves.
  const rate = (h: typeof hyper, upTo: number) => posterior({ ...history, events: events.slice(0, upTo) }, exposure, h).rate.mean;
  const moved = (h: typeof hyper) => rate(h, 6) - rate(h, 4);
  expect(moved(DEFAULT_HYPER)).toBeGreaterThan(0);
  expect(moved(hyper)).toBeLessThan(moved(DEFAULT_HYPER));
});

it('learns how often grades are misread at all, also where it knows who wrote them', () => {
  const units = Array.from({ length: 6 }, () => ({ history, exposure }));
  const { misread, eyes } = fitHyper(units, DEFAULT_HYPER, 'test');
  expect(misread).toBeGreaterThan(2 * DEFAULT_HYPER.misread);
  const sum = (by: string) => eyes[by]?.reduce((a, b) => a + b, 0) ?? NaN;
  expect(sum('hasty')).toBeGreaterThan(3 * sum('calm'));
});
