import { EPS, type Model } from '../model/model';

/** Travel of one shift from job to job, laid out by job so that the inner loops look nothing up. */
export interface Legs {
  /** Row-major from job to job. */
  readonly time: Float64Array;
  readonly drive: Float64Array;
  readonly outTime: Float64Array;
  readonly outDrive: Float64Array;
  readonly homeTime: Float64Array;
  readonly homeDrive: Float64Array;
  /** The soonest that a job or home can be reached, by way of other jobs where the direct way takes longer. */
  readonly soonest: Float64Array;
  readonly soonestHome: Float64Array;
  /** When everybody has to be back; a moment also on a day without an end, as work that no opening holds never ends. */
  readonly latest: number;
}

const legsOfModel = new WeakMap<Model, (Legs | undefined)[]>();

export function legsOf(model: Model, shiftIndex: number): Legs {
  let book = legsOfModel.get(model);
  if (!book) legsOfModel.set(model, (book = []));
  return (book[shiftIndex] ??= layOut(model, shiftIndex));
}

function layOut({ jobs, time, drive, places, shifts, triangle }: Model, shiftIndex: number): Legs {
  const n = jobs.length;
  const { startPlace, endPlace, hardTo } = shifts[shiftIndex]!;
  const between = (matrix: Float64Array): Float64Array => {
    const legs = new Float64Array(n * n);
    for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) legs[i * n + j] = matrix[jobs[i]!.place * places + jobs[j]!.place]!;
    return legs;
  };
  const out = (matrix: Float64Array): Float64Array => Float64Array.from(jobs, (job) => matrix[startPlace * places + job.place]!);
  const home = (matrix: Float64Array): Float64Array => Float64Array.from(jobs, (job) => matrix[job.place * places + endPlace]!);
  const legs = { time: between(time), homeTime: home(time) };
  return {
    ...legs,
    drive: between(drive),
    outTime: out(time),
    outDrive: out(drive),
    homeDrive: home(drive),
    latest: Math.min(hardTo + EPS, Number.MAX_VALUE),
    ...(triangle ? { soonest: legs.time, soonestHome: legs.homeTime } : byOthers(legs.time.slice(), legs.homeTime.slice(), n)),
  };
}

/** Shortest ways, through any number of jobs (Floyd & Warshall). */
function byOthers(soonest: Float64Array, soonestHome: Float64Array, n: number): Pick<Legs, 'soonest' | 'soonestHome'> {
  for (let k = 0; k < n; k++)
    for (let i = 0; i < n; i++) {
      const there = soonest[i * n + k]!;
      for (let j = 0; j < n; j++) soonest[i * n + j] = Math.min(soonest[i * n + j]!, there + soonest[k * n + j]!);
      soonestHome[i] = Math.min(soonestHome[i]!, there + soonestHome[k]!);
    }
  return { soonest, soonestHome };
}
