import { EPS, latenessAt, startAt, type Model } from '../model/model';
import { CompletionBounds } from './completion';
import { Labels } from './labels';
import { legsOf, type Legs } from './legs';
import { bestOptions, type Option } from './options';

/** A route that one shift could drive; with a limited memory a job may come twice. */
export interface PricedRoute {
  readonly shift: number;
  readonly jobs: readonly number[];
  readonly sets: readonly number[];
  readonly reduced: number;
}

export interface Pricing {
  /** Least reduced cost, at most zero (the shift may stay home). */
  readonly best: number;
  /** False if labels ran out, so that `best` is only the least found. */
  readonly proven: boolean;
  readonly routes: readonly PricedRoute[];
}

/**
 * Routes of one shift with negative reduced cost at given duals: a shortest path with
 * time, load and a memory of visited jobs (Baldacci, Mingozzi & Roberti 2011, "ng-route
 * relaxation"), by extending labels in order of time. All costs grow with time, so an
 * earlier, cheaper label that may still go wherever another may go makes the other
 * superfluous; a label that no completion brings below zero is dropped at once.
 * Yields every few labels, so that it can be stopped. `memory` holds for each job the jobs it remembers, as bit masks of 32 a word.
 */
export function* price(
  model: Model,
  shiftIndex: number,
  duals: Float64Array,
  memory: readonly Int32Array[],
  mostLabels: number,
): Generator<void, Pricing, void> {
  const options: Option[][] = model.jobs.map((_, j) => bestOptions(model, shiftIndex, j, duals));
  const search = new Search(model, shiftIndex, options, memory);
  const proven = yield* search.run(mostLabels);
  return { ...search.pick(), proven };
}

/** Labels extended between two looks at the clock: one shift of a full week can keep a machine busy for a minute. */
const AT_ONCE = 16;

/** Time is cut into slots and labels are extended slot by slot. */
const SLOTS = 512;

class Search {
  private readonly labels: Labels;
  private readonly active: number[];
  private readonly rivals: number[][];
  /** By slot; most stay empty. */
  private readonly queue: (number[] | undefined)[];
  private readonly closing: { label: number; reduced: number }[] = [];
  private readonly barred: Int32Array;
  private readonly lastArrival: Float64Array;
  private readonly completion: CompletionBounds;
  private readonly setWords: number;
  private readonly legs: Legs;
  private readonly timed: boolean;

  constructor(
    private readonly model: Model,
    private readonly shiftIndex: number,
    private readonly options: readonly (readonly Option[])[],
    private readonly memory: readonly Int32Array[],
  ) {
    const { jobs } = model;
    const shift = model.shifts[shiftIndex]!;
    this.legs = legsOf(model, shiftIndex);
    this.setWords = (jobs.length + 31) >>> 5;
    this.labels = new Labels(this.setWords);
    this.barred = new Int32Array(this.setWords);
    this.active = [...jobs.keys()].filter((j) => options[j]!.length > 0);
    this.rivals = jobs.map(() => []);
    this.timed = Number.isFinite(shift.hardTo - shift.from);
    this.queue = new Array<number[] | undefined>((this.timed ? SLOTS : jobs.length) + 1);
    this.lastArrival = new Float64Array(jobs.length).fill(-Infinity);
    for (const j of this.active) {
      const { closes } = model.views[shiftIndex]![j]!;
      const close = closes[closes.length - 1] ?? -Infinity;
      this.lastArrival[j] = Math.min(close, shift.hardTo - this.legs.soonestHome[j]!) - options[j]![0]!.minutes + EPS;
    }
    this.completion = new CompletionBounds(model, shiftIndex, options);
  }

  /** False if the labels ran out. */
  *run(mostLabels: number): Generator<void, boolean, void> {
    const { labels, model } = this;
    let extended = 0;
    const shift = model.shifts[this.shiftIndex]!;
    this.extend(-1, -1, shift.from, 0, 0, 0);
    for (const slot of this.queue) {
      if (!slot) continue;
      for (let i = 0; i < slot.length; i++) {
        const label = slot[i]!;
        if (labels.dead[label] === 1) continue;
        if (labels.count > mostLabels) return false;
        if (++extended % AT_ONCE === 0) yield;
        this.extend(label, labels.job[label]!, labels.time[label]!, labels.cost[label]!, labels.load[label]!, labels.stops[label]!);
      }
    }
    return true;
  }

  /** All ways on from a label, or from the start of the shift (both −1). */
  private extend(parent: number, at: number, clock: number, cost: number, load: number, stops: number): void {
    const { model, labels, setWords, lastArrival, options } = this;
    const { time, drive, outTime, outDrive, soonestHome, latest } = this.legs;
    const { jobs } = model;
    const shift = model.shifts[this.shiftIndex]!;
    const views = model.views[this.shiftIndex]!;
    const row = at * jobs.length;
    for (const k of this.active) {
      if (parent >= 0 && (labels.barred[parent * setWords + (k >>> 5)]! & (1 << (k & 31))) !== 0) continue;
      const job = jobs[k]!;
      const arrival = clock + (at < 0 ? outTime[k]! : time[row + k]!);
      const heavier = load + job.demand;
      if (arrival > lastArrival[k]! || heavier > shift.capacity + EPS) continue;
      const view = views[k]!;
      const way = at < 0 ? outDrive[k]! : drive[row + k]!;
      for (let o = 0; o < options[k]!.length; o++) {
        const option = options[k]![o]!;
        const start = startAt(view, arrival, option.minutes);
        const finish = start + option.minutes;
        if (finish + soonestHome[k]! > latest) break; // options grow longer
        const total = cost + way + option.cost + latenessAt(view, start);
        if (total + this.completion.toGo(k, finish) < -1e-9) this.settle(k, o, parent, finish, total, heavier, stops + 1);
      }
    }
  }

  /** Adds a label unless another is as good; drops those it is better than. */
  private settle(k: number, o: number, parent: number, clock: number, cost: number, load: number, stops: number): void {
    const { labels, setWords, barred } = this;
    this.bar(k, parent, clock, load);
    const rivals = this.rivals[k]!;
    let kept = 0;
    for (let r = 0; r < rivals.length; r++) {
      const rival = rivals[r]!;
      const sooner = labels.time[rival]! - clock;
      const cheaper = labels.cost[rival]! - cost;
      const lighter = labels.load[rival]! - load;
      // None before this one was dropped: what the new label beats, this one has beaten already.
      if (sooner <= 0 && cheaper <= 1e-12 && lighter <= 0 && this.inside(rival, true)) return;
      if (sooner >= 0 && cheaper >= 0 && lighter >= 0 && this.inside(rival, false)) labels.dead[rival] = 1;
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
    for (let w = 0; w < setWords; w++) labels.barred[label * setWords + w] = barred[w]!;
    rivals.push(label);
    this.goOnFrom(label, clock, stops);
    this.goHomeFrom(label, k, clock, cost);
  }

  /** The route may go on to another job. */
  private goOnFrom(label: number, clock: number, stops: number): void {
    const shift = this.model.shifts[this.shiftIndex]!;
    if (stops >= this.model.jobs.length) return;
    const slot = this.timed ? Math.min(SLOTS, Math.floor(((clock - shift.from) / (shift.hardTo - shift.from)) * SLOTS)) : stops;
    (this.queue[slot] ??= []).push(label);
  }

  /** The route may end here. */
  private goHomeFrom(label: number, k: number, clock: number, cost: number): void {
    const shift = this.model.shifts[this.shiftIndex]!;
    const back = clock + this.legs.homeTime[k]!;
    if (back > this.legs.latest) return;
    const over = back - shift.to;
    const reduced = cost + this.legs.homeDrive[k]! + (over > 0 ? over * shift.overtimePrice : 0);
    if (reduced < -1e-9) this.closing.push({ label, reduced });
  }

  /** Jobs that may not follow: remembered as visited, or no longer to be reached in time or load. */
  private bar(k: number, parent: number, clock: number, load: number): void {
    const { barred, setWords, labels, lastArrival } = this;
    const { jobs } = this.model;
    const { soonest } = this.legs;
    const { capacity } = this.model.shifts[this.shiftIndex]!;
    for (let w = 0; w < setWords; w++) barred[w] = parent >= 0 ? labels.barred[parent * setWords + w]! & this.memory[k]![w]! : 0;
    barred[k >>> 5]! |= 1 << (k & 31);
    const row = k * jobs.length;
    for (const next of this.active)
      if (clock + soonest[row + next]! > lastArrival[next]! || load + jobs[next]!.demand > capacity + EPS)
        barred[next >>> 5]! |= 1 << (next & 31);
  }

  /** Is the rival's bar list inside the new label's (or the other way about)? */
  private inside(rival: number, rivalInNew: boolean): boolean {
    for (let w = 0; w < this.setWords; w++) {
      const theirs = this.labels.barred[rival * this.setWords + w]!;
      const mine = this.barred[w]!;
      if ((rivalInNew ? theirs & ~mine : mine & ~theirs) !== 0) return false;
    }
    return true;
  }

  /** The best routes for each last job: variety for the master problem without swelling it. */
  pick(): { best: number; routes: PricedRoute[] } {
    const { closing, labels, options } = this;
    closing.sort((a, b) => a.reduced - b.reduced || a.label - b.label);
    const ends = new Map<number, number>();
    const routes: PricedRoute[] = [];
    for (const { label, reduced } of closing) {
      const job = labels.job[label]!;
      const already = ends.get(job) ?? 0;
      if (already >= 2) continue;
      ends.set(job, already + 1);
      const jobs: number[] = [];
      const sets: number[] = [];
      for (let at = label; at >= 0; at = labels.parent[at]!) {
        jobs.unshift(labels.job[at]!);
        sets.unshift(options[labels.job[at]!]![labels.option[at]!]!.set);
      }
      routes.push({ shift: this.shiftIndex, jobs, sets, reduced });
    }
    return { best: closing[0]?.reduced ?? 0, routes };
  }
}
