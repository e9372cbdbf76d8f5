import type { LeaveCost } from './model';

/** One item as later trips see it: its cost on each possible later day, lowest on the first day on or after its due day. */
export interface LaterItem {
  /** Cost on each candidate day; falls up to `best` and rises from there. */
  readonly onDay: readonly number[];
  /** Index of the first candidate day on or after the due day (the number of days if none). */
  readonly best: number;
}

/**
 * Cheapest way to do a set of items on later trips: choose trip days, each costing `trip`,
 * and do every item on the better of the trips around its due day. A shortest path over
 * the days, exact because an item's cost has a single valley.
 * `always` are items that no one would do this week; the cost of their trips alone is
 * taken off, so that zero means "nothing beyond what will come anyway".
 */
export function laterTrips(items: readonly LaterItem[], always: readonly LaterItem[], days: number, trip: number): LeaveCost {
  const known = new Map<number, number>();
  const base = cheapest(always, days, trip);
  return (set) => {
    if (set === 0) return 0;
    let cost = known.get(set);
    if (cost === undefined) {
      const chosen = items.filter((_, i) => (set & (1 << i)) !== 0);
      cost = Math.max(0, cheapest([...chosen, ...always], days, trip) - base);
      known.set(set, cost);
    }
    return cost;
  };
}

function cheapest(items: readonly LaterItem[], days: number, trip: number): number {
  if (items.length === 0) return 0;
  const upTo = new Array<number>(days).fill(Infinity);
  let least = Infinity;
  for (let b = 0; b < days; b++) {
    let first = trip;
    for (const item of items) if (item.best <= b) first += item.onDay[b]!;
    upTo[b] = first;
    for (let a = 0; a < b; a++) {
      let cost = upTo[a]! + trip;
      for (const item of items) if (item.best > a && item.best <= b) cost += Math.min(item.onDay[a]!, item.onDay[b]!);
      if (cost < upTo[b]!) upTo[b] = cost;
    }
    let closing = upTo[b]!;
    for (const item of items) if (item.best > b) closing += item.onDay[b]!;
    if (closing < least) least = closing;
  }
  return least;
}

/** Items that must be done now or not at all: a fixed price for each one left. */
export function fixedPrice(price: number): LeaveCost {
  return (set) => {
    let count = 0;
    for (let rest = set; rest !== 0; rest &= rest - 1) count++;
    return count * price;
  };
}
