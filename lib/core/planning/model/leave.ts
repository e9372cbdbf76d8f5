import type { LeaveCost } from './model';

/** One item as later trips see it: its cost on each possible later day, lowest on the first day on or after its due day. */
export interface LaterItem {
  /** Cost on each candidate day; falls up to `best` and rises from there. */
  readonly onDay: readonly number[];
  /** Index of the first candidate day on or after the due day. */
  readonly best: number;
}

/**
 * Cheapest way to do a set of items on later trips: choose trip days, each costing `trip`,
 * and do every item on the better of the trips around its due day. A shortest path over
 * the days, exact because an item's cost has a single valley; a trip is never worth moving
 * off the first day or some item's due day.
 * `always` are items that no one would do this week; the cost of their trips alone is
 * taken off, so that zero means "nothing beyond what will come anyway".
 */
export function laterTrips(items: readonly LaterItem[], always: readonly LaterItem[], trip: number): LeaveCost {
  const costOfSet = new Map<number, number>();
  const sort = (entries: Entry[]): Entry[] => entries.sort((a, b) => a.best - b.best);
  const waiting = always.map(({ onDay, best }) => ({ onDay, best, index: -1 }));
  const all = sort([...items.map(({ onDay, best }, index) => ({ onDay, best, index })), ...waiting]);
  const base = cheapest(sort(waiting.slice()), trip, null).cost;
  return {
    cost: (set) => {
      if (set === 0) return 0;
      let value = costOfSet.get(set);
      if (value === undefined) {
        value = Math.max(
          0,
          cheapest(
            all.filter(({ index }) => index < 0 || (set & (1 << index)) !== 0),
            trip,
            null,
          ).cost - base,
        );
        costOfSet.set(set, value);
      }
      return value;
    },
    dearest: (prizes) => {
      const { cost, trips } = cheapest(all, trip, prizes);
      if (cost - base >= 0) return { set: 0, value: 0 };
      let set = 0;
      for (const { onDay, index } of all)
        if (index >= 0 && trips.reduce((least, day) => Math.min(least, onDay[day]!), Infinity) < prizes[index]!) set |= 1 << index;
      return { set, value: cost - base };
    },
  };
}

interface Entry extends LaterItem {
  /** Which item; below zero for one that is always left. */
  readonly index: number;
}

/** Entries in order of their best day. With prizes an item is left out where it costs more than its prize. */
function cheapest(entries: readonly Entry[], trip: number, prizes: ArrayLike<number> | null): { cost: number; trips: number[] } {
  if (entries.length === 0) return { cost: 0, trips: [] };
  const days = [0];
  for (const { best } of entries) if (best !== days[days.length - 1]) days.push(best);
  const m = days.length;
  // entries[after[d]] is the first whose best day lies after days[d].
  const after = days.map((day) => {
    const first = entries.findIndex(({ best }) => best > day);
    return first < 0 ? entries.length : first;
  });
  const weigh = (entry: Entry, paid: number): number => (prizes && entry.index >= 0 ? Math.min(0, paid - prizes[entry.index]!) : paid);
  const upTo = new Array<number>(m).fill(Infinity);
  const from = new Array<number>(m).fill(-1);
  let cost = Infinity;
  let last = 0;
  for (let b = 0; b < m; b++) {
    const dayB = days[b]!;
    let least = trip;
    for (let e = 0; e < after[b]!; e++) least += weigh(entries[e]!, entries[e]!.onDay[dayB]!);
    for (let a = 0; a < b; a++) {
      const dayA = days[a]!;
      let sum = upTo[a]! + trip;
      for (let e = after[a]!; e < after[b]!; e++) {
        const { onDay } = entries[e]!;
        sum += weigh(entries[e]!, Math.min(onDay[dayA]!, onDay[dayB]!));
      }
      if (sum < least) [least, from[b]] = [sum, a];
    }
    upTo[b] = least;
    let closing = least;
    for (let e = after[b]!; e < entries.length; e++) closing += weigh(entries[e]!, entries[e]!.onDay[dayB]!);
    if (closing < cost) [cost, last] = [closing, b];
  }
  const trips: number[] = [];
  for (let b = last; b >= 0; b = from[b]!) trips.push(days[b]!);
  return { cost, trips };
}

/**
 * The same, for a job whose every visit is charged `price` although its first is free: leaving all of it costs `price` more, so that
 * every plan carries it once, and a second visit once more.
 */
export function firstVisitFree(leave: LeaveCost, all: number, price: number): LeaveCost {
  if (price === 0 || all === 0) return leave;
  return {
    cost: (set) => leave.cost(set) + (set === all ? price : 0),
    dearest: (prizes) => {
      const free = leave.dearest(prizes);
      if (free.set !== all) return free;
      let best = { set: all, value: free.value + price };
      // Else something stays: the dearest set without one of the items.
      for (let i = 0; i < prizes.length; i++) {
        const without = leave.dearest(Float64Array.from(prizes, (prize, at) => (at === i ? -Infinity : prize)));
        if (without.value < best.value) best = without;
      }
      return best;
    },
  };
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
