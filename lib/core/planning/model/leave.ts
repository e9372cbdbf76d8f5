import type { LeaveCost } from './model';

/** One item as later trips see it: its cost on each possible later day, lowest on the first day on or after its due day. */
export interface LaterItem {
  /** Cost on each candidate day; falls up to `best` and rises from there. */
  readonly onDay: readonly number[];
  /** Index of the first candidate day on or after the due day (the number of days if none). */
  readonly best: number;
}

/** Turns an item's cost on its trip into its share of the total; `index` is below zero for items that are always left. */
type Weigh = (cost: number, index: number) => number;

/**
 * Cheapest way to do a set of items on later trips: choose trip days, each costing `trip`,
 * and do every item on the better of the trips around its due day. A shortest path over
 * the days, exact because an item's cost has a single valley.
 * `always` are items that no one would do this week; the cost of their trips alone is
 * taken off, so that zero means "nothing beyond what will come anyway".
 */
export function laterTrips(items: readonly LaterItem[], always: readonly LaterItem[], days: number, trip: number): LeaveCost {
  const known = new Map<number, number>();
  const all = [...items.map((item, index) => ({ item, index })), ...always.map((item) => ({ item, index: -1 }))];
  const path = (keep: (index: number) => boolean, weigh: Weigh): number =>
    cheapestPath(all.filter((entry) => entry.index < 0 || keep(entry.index)), days, trip, weigh);
  const base = always.length === 0 ? 0 : path(() => false, (cost) => cost);
  const cost = (set: number): number => {
    if (set === 0) return 0;
    let value = known.get(set);
    if (value === undefined) {
      value = Math.max(0, path((index) => (set & (1 << index)) !== 0, (paid) => paid) - base);
      known.set(set, value);
    }
    return value;
  };
  return {
    cost,
    dearest: (prizes) => {
      const taken = new Set<number>();
      const value = cheapestPath(all, days, trip, (paid, index) => (index < 0 ? paid : Math.min(0, paid - prizes[index]!)), taken) - base;
      if (value >= 0) return { set: 0, value: 0 };
      let set = 0;
      for (const index of taken) set |= 1 << index;
      return { set, value };
    },
  };
}

function cheapestPath(
  entries: readonly { readonly item: LaterItem; readonly index: number }[], days: number, trip: number, weigh: Weigh, taken?: Set<number>,
): number {
  const upTo = new Array<number>(days).fill(Infinity);
  const from = new Array<number>(days).fill(-1);
  let least = Infinity;
  let last = -1;
  for (let b = 0; b < days; b++) {
    let first = trip;
    for (const { item, index } of entries) if (item.best <= b) first += weigh(item.onDay[b]!, index);
    upTo[b] = first;
    for (let a = 0; a < b; a++) {
      let cost = upTo[a]! + trip;
      for (const { item, index } of entries)
        if (item.best > a && item.best <= b) cost += weigh(Math.min(item.onDay[a]!, item.onDay[b]!), index);
      if (cost < upTo[b]!) [upTo[b], from[b]] = [cost, a];
    }
    let closing = upTo[b]!;
    for (const { item, index } of entries) if (item.best > b) closing += weigh(item.onDay[b]!, index);
    if (closing < least) [least, last] = [closing, b];
  }
  if (taken) {
    const trips: number[] = [];
    for (let b = last; b >= 0; b = from[b]!) trips.push(b);
    for (const { item, index } of entries) {
      const paid = Math.min(...trips.map((b) => item.onDay[b]!));
      if (index >= 0 && weigh(paid, index) < 0) taken.add(index);
    }
  }
  return least;
}

/** Items that must be done now or not at all: a fixed price for each one left. */
export function fixedPrice(price: number): LeaveCost {
  return {
    cost: (set) => {
      let count = 0;
      for (let rest = set; rest !== 0; rest &= rest - 1) count++;
      return count * price;
    },
    dearest: (prizes) => {
      let set = 0;
      let value = 0;
      for (let i = 0; i < prizes.length; i++) {
        if (prizes[i]! <= price) continue;
        set |= 1 << i;
        value += price - prizes[i]!;
      }
      return { set, value };
    },
  };
}
