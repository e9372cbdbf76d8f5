import { EPS, startAt, type Model } from '../model/model';
import { Labels } from './labels';
import { bestOptions, type Option } from './options';

/** A route that one shift could drive; with a limited memory a job may come twice. */
export interface PricedRoute {
  readonly shift: number;
  readonly jobs: readonly number[];
  readonly sets: readonly number[];
  readonly reduced: number;
}

export interface Pricing {
  /** Least reduced cost found, at most zero (the shift may stay home). */
  readonly best: number;
  /** True if `best` is proven least; false if labels ran out or the search was a quick one. */
  readonly proven: boolean;
  readonly routes: readonly PricedRoute[];
}

export interface PricingOptions {
  /** For each job the jobs it remembers having seen (bit masks); everything means no job comes twice. */
  readonly memory: readonly Int32Array[];
  /** Quick: ignore what was visited when comparing partial routes. Finds routes, proves nothing. */
  readonly quick: boolean;
  readonly mostLabels: number;
}

/**
 * Cheapest routes of one shift at given duals: shortest path with time, load and memory of
 * visited jobs (Baldacci, Mingozzi & Roberti 2011, "ng-route relaxation"), by extending
 * labels in order of time. All costs grow with time, so an earlier, cheaper label that may
 * still go everywhere another may go makes the other superfluous.
 */
export function price(model: Model, shiftIndex: number, duals: Float64Array, settings: PricingOptions): Pricing {
  const shift = model.shifts[shiftIndex]!;
  const views = model.views[shiftIndex]!;
  const { time, drive, places, jobs } = model;
  const n = jobs.length;
  const words = (n + 31) >>> 5;
  const options: Option[][] = jobs.map((_, j) => bestOptions(model, shiftIndex, j, duals));
  const active = [...jobs.keys()].filter((j) => options[j]!.length > 0);
  const lastArrival = new Float64Array(n).fill(-Infinity);
  for (const j of active) {
    const view = views[j]!;
    const shortest = options[j]![0]!.minutes;
    const close = view.closes.length > 0 ? view.closes[view.closes.length - 1]! : -Infinity;
    lastArrival[j] = Math.min(close, shift.hardTo - time[jobs[j]!.place * places + shift.endPlace]!) - shortest + EPS;
  }
  const labels = new Labels(words);
  const perJob: number[][] = jobs.map(() => []);
  const span = shift.hardTo - shift.from;
  const timed = Number.isFinite(span);
  const slots = timed ? 512 : n + 1;
  const queue: number[][] = Array.from({ length: slots + 1 }, () => []);
  const closing: { label: number; reduced: number }[] = [];
  const barred = new Int32Array(words);
  const mostStops = n;

  const bar = (at: number, clock: number, load: number): void => {
    for (const k of active) {
      if (clock + time[at * places + jobs[k]!.place]! > lastArrival[k]! || load + jobs[k]!.demand > shift.capacity + EPS)
        barred[k >>> 5]! |= 1 << (k & 31);
    }
  };
  const extend = (parent: number, at: number, clock: number, cost: number, load: number, stops: number): void => {
    for (const k of active) {
      if (parent >= 0 && (labels.barred[parent * words + (k >>> 5)]! & (1 << (k & 31))) !== 0) continue;
      const leg = at * places + jobs[k]!.place;
      const arrival = clock + time[leg]!;
      if (arrival > lastArrival[k]! || load + jobs[k]!.demand > shift.capacity + EPS) continue;
      const view = views[k]!;
      const home = time[jobs[k]!.place * places + shift.endPlace]!;
      const choices = options[k]!;
      for (let o = 0; o < choices.length; o++) {
        const choice = choices[o]!;
        const start = startAt(view, arrival, choice.minutes);
        const finish = start + choice.minutes;
        if (finish + home > shift.hardTo + EPS) break; // options grow longer
        const late = start > view.promised ? (start - view.promised) * view.latePrice : 0;
        place(k, o, parent, finish, cost + drive[leg]! + choice.cost + late, load + jobs[k]!.demand, stops + 1);
      }
    }
  };
  const place = (k: number, o: number, parent: number, clock: number, cost: number, load: number, stops: number): void => {
    const seen = settings.memory[k]!;
    for (let w = 0; w < words; w++) barred[w] = parent >= 0 ? labels.barred[parent * words + w]! & seen[w]! : 0;
    barred[k >>> 5]! |= 1 << (k & 31);
    bar(jobs[k]!.place, clock, load);
    const rivals = perJob[k]!;
    let kept = 0;
    for (let r = 0; r < rivals.length; r++) {
      const rival = rivals[r]!;
      const rt = labels.time[rival]!;
      const rc = labels.cost[rival]!;
      const rl = labels.load[rival]!;
      if (rt <= clock && rc <= cost + 1e-12 && rl <= load && (settings.quick || within(rival, true))) {
        // Dominated. Rivals already passed over stay; the rest were never touched.
        if (kept < r) {
          for (let rest = r; rest < rivals.length; rest++) rivals[kept++] = rivals[rest]!;
          rivals.length = kept;
        }
        return;
      }
      if (clock <= rt && cost <= rc && load <= rl && (settings.quick || within(rival, false))) labels.dead[rival] = 1;
      else rivals[kept++] = rival;
    }
    rivals.length = kept;
    const label = labels.make();
    labels.time[label] = clock;
    labels.cost[label] = cost;
    labels.load[label] = load;
    labels.job[label] = k;
    labels.option[label] = o;
    labels.parent[label] = parent;
    labels.stops[label] = stops;
    for (let w = 0; w < words; w++) labels.barred[label * words + w] = barred[w]!;
    rivals.push(label);
    if (stops < mostStops) queue[timed ? Math.min(slots, Math.floor(((clock - shift.from) / span) * slots)) : stops]!.push(label);
    const homeward = jobs[k]!.place * places + shift.endPlace;
    const over = clock + time[homeward]! - shift.to;
    const reduced = cost + drive[homeward]! + (over > 0 ? over * shift.overtimePrice : 0);
    if (reduced < -1e-9) closing.push({ label, reduced });
  };
  /** Is the rival's bar list inside the new label's (or the other way about)? */
  const within = (rival: number, rivalInside: boolean): boolean => {
    for (let w = 0; w < words; w++) {
      const theirs = labels.barred[rival * words + w]!;
      if ((rivalInside ? theirs & ~barred[w]! : barred[w]! & ~theirs) !== 0) return false;
    }
    return true;
  };

  extend(-1, shift.startPlace, shift.from, 0, 0, 0);
  let ranOut = false;
  for (let slot = 0; slot <= slots && !ranOut; slot++) {
    const bucket = queue[slot]!;
    for (let i = 0; i < bucket.length; i++) {
      const label = bucket[i]!;
      if (labels.dead[label] === 1) continue;
      if (labels.count > settings.mostLabels) {
        ranOut = true;
        break;
      }
      extend(label, jobs[labels.job[label]!]!.place, labels.time[label]!, labels.cost[label]!, labels.load[label]!, labels.stops[label]!);
    }
  }
  return { ...pick(closing, labels, options, shiftIndex), proven: !ranOut && !settings.quick };
}

/** The best route for each last job: enough variety for the master problem, few enough to keep it small. */
function pick(
  closing: { label: number; reduced: number }[], labels: Labels, options: readonly Option[][], shift: number,
): { best: number; routes: PricedRoute[] } {
  closing.sort((a, b) => a.reduced - b.reduced || a.label - b.label);
  const ends = new Map<number, number>();
  const routes: PricedRoute[] = [];
  for (const { label, reduced } of closing) {
    const job = labels.job[label]!;
    const so = ends.get(job) ?? 0;
    if (so >= 2) continue;
    ends.set(job, so + 1);
    const jobs: number[] = [];
    const sets: number[] = [];
    for (let at = label; at >= 0; at = labels.parent[at]!) {
      jobs.unshift(labels.job[at]!);
      sets.unshift(options[labels.job[at]!]![labels.option[at]!]!.set);
    }
    routes.push({ shift, jobs, sets, reduced });
  }
  return { best: closing[0]?.reduced ?? 0, routes };
}
