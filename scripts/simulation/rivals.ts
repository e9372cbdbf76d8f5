import type { UnitEvent } from '../../lib/core/fouling';
import type { Policy } from './run';

/** What the product is held against: a calendar, two rules that fit on a card, and any one interval for all time. */

export const everyDays = (days: number, name = `every ${days} days`): Policy => ({
  name,
  first: () => days,
  next: () => ({ days, returnDays: null, deepClean: false }),
});

export const fixed = everyDays(90, 'fixed 90 days');

function seen(events: readonly UnitEvent[]) {
  const met = events.flatMap((e) => (e.kind === 'coil' && e.phase === 'before' ? [e.grade] : []))[0] ?? null;
  return { met, tripped: events.some((e) => e.kind === 'trip') };
}

function card(name: string, first: (i: number) => number, factor: (s: ReturnType<typeof seen>) => number): Policy {
  const days: number[] = [];
  return {
    name,
    first: (i) => (days[i] = first(i)),
    next: (i, _, events) => {
      const s = seen(events);
      days[i] = Math.max(7, Math.min(364, (days[i] as number) * factor(s)));
      return { days: Math.round(days[i]), returnDays: s.met === 'packed' || s.tripped ? 7 : null, deepClean: false };
    },
  };
}

/** From 90 days: a third off when matted or worse, a quarter more when filmed or better. */
export const crude = (): Policy =>
  card(
    'crude rule',
    () => 90,
    ({ met, tripped }) => (tripped || met === 'packed' || met === 'matted' ? 2 / 3 : met === 'bare' || met === 'filmed' ? 1.25 : 1),
  );

/** From the product's own first interval: halve if packed or tripped, ×0.85 if matted, a quarter more up to furred. */
export const goodRule = (first: (i: number) => number): Policy =>
  card('good simple rule', first, ({ met, tripped }) =>
    tripped || met === 'packed' ? 0.5 : met === 'matted' ? 0.85 : met === null ? 1 : 1.25,
  );
