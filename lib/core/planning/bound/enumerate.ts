import { EPS, latenessAt, startAt, type Model } from '../model/model';
import { CompletionBounds } from './completion';
import { legsOf } from './legs';
import type { Column } from './master';
import { nearOptions, type Option } from './options';

interface Partial {
  readonly job: number;
  readonly set: number;
  readonly finish: number;
  /** Reduced and true cost so far. */
  readonly cost: number;
  readonly load: number;
  readonly parent: Partial | null;
  readonly visited: Int32Array;
  /** Items covered, as text: the key under which partial routes compete. */
  readonly covers: string;
  dead: boolean;
}

/**
 * Every route of one shift with reduced cost up to `limit`: those that a plan may use whose
 * cost exceeds the bound the duals prove by no more than the limit allows (Baldacci, Christofides & Mingozzi
 * 2008). Of routes covering the same items only the cheapest is kept. Yields now and then;
 * gives up (null) beyond `most` partial routes.
 */
export function* enumerateRoutes(
  model: Model,
  shiftIndex: number,
  duals: Float64Array,
  limit: number,
  gap: number,
  most: number,
): Generator<void, Column[] | null, void> {
  const shift = model.shifts[shiftIndex]!;
  const views = model.views[shiftIndex]!;
  const { time, drive, places, jobs } = model;
  const { soonestHome, latest } = legsOf(model, shiftIndex);
  const options: Option[][] = [];
  for (const j of jobs.keys()) {
    const near = nearOptions(model, shiftIndex, j, duals, gap);
    if (!near) return null;
    options.push(near);
  }
  const active = [...jobs.keys()].filter((j) => options[j]!.length > 0);
  const completion = new CompletionBounds(model, shiftIndex, options);
  const setWords = (jobs.length + 31) >>> 5;
  const found = new Map<string, { reduced: number; last: Partial }>();
  let made = 0;

  const extensions = (from: Partial | null): Partial[] => {
    const at = (from ? jobs[from.job]!.place : shift.startPlace) * places;
    const clock = from ? from.finish : shift.from;
    const grown: Partial[] = [];
    for (const k of active) {
      if (from && (from.visited[k >>> 5]! & (1 << (k & 31))) !== 0) continue;
      const job = jobs[k]!;
      const load = (from?.load ?? 0) + job.demand;
      if (load > shift.capacity + EPS) continue;
      const view = views[k]!;
      for (const option of options[k]!) {
        const start = startAt(view, clock + time[at + job.place]!, option.minutes);
        const finish = start + option.minutes;
        if (finish + soonestHome[k]! > latest) break;
        const cost = (from?.cost ?? 0) + drive[at + job.place]! + option.cost + latenessAt(view, start);
        if (cost + completion.toGo(k, finish) > limit + 1e-6) continue;
        const visited = from ? from.visited.slice() : new Int32Array(setWords);
        visited[k >>> 5]! |= 1 << (k & 31);
        grown.push({
          job: k,
          set: option.set,
          finish,
          cost,
          load,
          parent: from,
          visited,
          covers: coverKey(from, k, option.set),
          dead: false,
        });
      }
    }
    return grown;
  };

  let layer = extensions(null);
  while (layer.length > 0) {
    const next = new Map<string, Partial[]>();
    for (const partial of layer) {
      if (partial.dead) continue;
      close(partial);
      for (const grown of extensions(partial)) {
        const key = `${grown.covers}>${grown.job}`;
        const rivals = next.get(key);
        if (!rivals) next.set(key, [grown]);
        else if (!rivals.some((rival) => rival.finish <= grown.finish && rival.cost <= grown.cost + 1e-9)) {
          for (const rival of rivals) if (grown.finish <= rival.finish && grown.cost <= rival.cost) rival.dead = true;
          rivals.push(grown);
        } else continue;
        if (++made > most) return null;
        if (made % 2000 === 0) yield;
      }
    }
    layer = [...next.values()].flat();
  }
  return [...found.values()].map(({ reduced, last }) => columnFrom(reduced, last));

  function close(partial: Partial): void {
    const homeward = jobs[partial.job]!.place * places + shift.endPlace;
    const back = partial.finish + time[homeward]!;
    const over = back - shift.to;
    const reduced = partial.cost + drive[homeward]! + (over > 0 ? over * shift.overtimePrice : 0);
    if (back > latest || reduced > limit + 1e-6) return;
    const rival = found.get(partial.covers);
    if (!rival || reduced < rival.reduced) found.set(partial.covers, { reduced, last: partial });
  }

  function columnFrom(reduced: number, last: Partial): Column {
    const onRoute: number[] = [];
    const sets: number[] = [];
    let cost = reduced;
    for (let at: Partial | null = last; at; at = at.parent) {
      onRoute.unshift(at.job);
      sets.unshift(at.set);
      for (let rest = at.set; rest !== 0; rest &= rest - 1) cost += duals[jobs[at.job]!.firstRow + (31 - Math.clz32(rest & -rest))]!;
    }
    return { shift: shiftIndex, jobs: onRoute, sets, cost: model.wholeCosts ? Math.round(cost) : cost };
  }

  function coverKey(from: Partial | null, job: number, set: number): string {
    const parts: string[] = [`${job}.${set}`];
    for (let at = from; at; at = at.parent) parts.push(`${at.job}.${at.set}`);
    return parts.sort().join(' ');
  }
}
