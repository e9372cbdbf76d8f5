import type { Model } from '../model/model';

/** Travel of one shift from job to job, laid out by job so that the inner loops look nothing up. */
export interface Legs {
  /** Row-major from job to job. */
  readonly time: Float64Array;
  readonly drive: Float64Array;
  readonly outTime: Float64Array;
  readonly outDrive: Float64Array;
  readonly homeTime: Float64Array;
  readonly homeDrive: Float64Array;
}

const legsOfModel = new WeakMap<Model, (Legs | undefined)[]>();

export function legsOf(model: Model, shiftIndex: number): Legs {
  let book = legsOfModel.get(model);
  if (!book) legsOfModel.set(model, (book = []));
  return (book[shiftIndex] ??= layOut(model, shiftIndex));
}

function layOut({ jobs, time, drive, places, shifts }: Model, shiftIndex: number): Legs {
  const n = jobs.length;
  const { startPlace, endPlace } = shifts[shiftIndex]!;
  const between = (matrix: Float64Array): Float64Array => {
    const legs = new Float64Array(n * n);
    for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) legs[i * n + j] = matrix[jobs[i]!.place * places + jobs[j]!.place]!;
    return legs;
  };
  const out = (matrix: Float64Array): Float64Array => Float64Array.from(jobs, (job) => matrix[startPlace * places + job.place]!);
  const home = (matrix: Float64Array): Float64Array => Float64Array.from(jobs, (job) => matrix[job.place * places + endPlace]!);
  return {
    time: between(time),
    drive: between(drive),
    outTime: out(time),
    outDrive: out(drive),
    homeTime: home(time),
    homeDrive: home(drive),
  };
}
