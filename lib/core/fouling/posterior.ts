import { fromDay, toDay, type LocalDate } from '../calendar';
import { AT, depositMean, depositVariance, isAsymptotic, startBank, STRIDE, UNKNOWN_RUN } from './filter';
import { ordered, type Exposure, type UnitEvent, type UnitHistory } from './history';
import type { Hyper } from './hyper';
import { mixtureMoments, mixtureQuantile, type Mixture } from './mixture';
import { NO_MESSAGE, weigh, type KitchenMessage } from './pooling';
import { takeDay, type Evidence, type Run } from './run';

type Snapshot = Omit<Run, 'bank'> & { bank: number[] };
export type Band = { mean: number; sd: number; low: number; high: number };

/** Belief about one unit's coil, as plain JSON. Bands run from the 10 to the 90 % point. */
export type FoulingPosterior = {
  modelVersion: string;
  exposure: Exposure;
  /** Last day with an event, or the start of the record; everything here holds at the end of that day. */
  asOf: LocalDate;
  /** Fall of ln K per day. */
  rate: Band;
  /** Part of a deposit that a cleaning of this unit takes off. */
  restore: { mean: number; sd: number };
  /** ln(K/K_clean): 0 clean, negative when conductance is lost. */
  lnK: Band;
  /** Probability that growth levels off (Kern–Seaton) rather than going on in a line. */
  asymptotic: number;
  evidence: Evidence;
  lastCleanedOn: LocalDate | null;
  /** ln likelihood of all the evidence, for comparing models. */
  logEvidence: number;
  /** What this unit tells its kitchen, and what its neighbours told it through the kitchen. */
  message: KitchenMessage;
  fromKitchen: KitchenMessage;
  /** For updates and forecasts: the filter before the newest day, that day's events, and the filter after it. */
  state: {
    settled: Snapshot;
    today: UnitEvent[];
    live: number[];
    /** Days since the coil was last clean, on `asOf`. */
    age: number;
    weights: number[];
    diffusion: number;
    asymptotic: Hyper['asymptotic'];
    restore: Hyper['restore'];
  };
};

const freeze = (run: Run): Snapshot => ({ ...run, bank: Array.from(run.bank), evidence: { ...run.evidence } });
const thaw = (s: Snapshot): Run => ({ ...s, bank: Float64Array.from(s.bank), evidence: { ...s.evidence } });

function band(m: Mixture): Band {
  const start = mixtureMoments(m);
  return { ...start, low: mixtureQuantile(m, 0.1, start), high: mixtureQuantile(m, 0.9, start) };
}

function finish(
  settled: Snapshot,
  today: UnitEvent[],
  run: Run,
  exposure: Exposure,
  hyper: Hyper,
  fromKitchen: KitchenMessage,
): FoulingPosterior {
  const { bank } = run;
  const { weights, message, logEvidence } = weigh(bank, hyper, exposure.placement, fromKitchen);
  const n = weights.length;
  const column = (at: (o: number) => number) => Float64Array.from({ length: n }, (_, i) => at(i * STRIDE));
  const root = (at: number) => column((o) => Math.sqrt(Math.max(bank[o + at] as number, 1e-18)));
  const lost = mixtureMoments({ weights, means: column((o) => bank[o + AT.Q] as number), sds: root(AT.QQ) });
  const deposit = band({
    weights,
    means: column((o) => depositMean(bank, o)),
    sds: column((o) => Math.sqrt(Math.max(depositVariance(bank, o), 1e-18))),
  });
  let asymptotic = 0;
  for (let i = 0; i < n; i++) if (isAsymptotic(bank[i * STRIDE] as number)) asymptotic += weights[i] as number;
  return {
    modelVersion: hyper.modelVersion,
    exposure,
    asOf: fromDay(run.day),
    rate: band({ weights, means: column((o) => bank[o + AT.RATE] as number), sds: root(AT.XX) }),
    restore: { mean: 1 - lost.mean, sd: lost.sd },
    lnK: { mean: -deposit.mean, sd: deposit.sd, low: -deposit.high, high: -deposit.low },
    asymptotic,
    evidence: run.evidence,
    lastCleanedOn: run.lastCleanedDay === null ? null : fromDay(run.lastCleanedDay),
    logEvidence,
    message,
    fromKitchen,
    state: {
      settled,
      today,
      live: Array.from(bank),
      age: run.day - run.bornDay,
      weights: Array.from(weights),
      diffusion: hyper.diffusion,
      asymptotic: hyper.asymptotic,
      restore: hyper.restore,
    },
  };
}

/** Runs through sorted events from `run`, stopping before the last day to keep it open for late arrivals. */
function play(
  run: Run,
  events: UnitEvent[],
  exposure: Exposure,
  hyper: Hyper,
  fromKitchen: KitchenMessage,
): FoulingPosterior {
  let i = 0;
  let settled = run;
  let open: Snapshot | null = null;
  let today: UnitEvent[] = [];
  while (i < events.length) {
    const on = (events[i] as UnitEvent).on;
    let end = i + 1;
    while (end < events.length && (events[end] as UnitEvent).on === on) end++;
    today = events.slice(i, end);
    if (end === events.length) open = freeze(settled);
    takeDay(settled, hyper, exposure, toDay(on), today);
    i = end;
  }
  return finish(open ?? freeze(settled), today, settled, exposure, hyper, fromKitchen);
}

/**
 * Posterior of one unit from its whole history. Without events it is the prior of its exposure. `fromKitchen` is what
 * the unit's neighbours say (see `kitchenWord`). Events before `startedOn` throw.
 */
export function posterior(
  history: UnitHistory,
  exposure: Exposure,
  hyper: Hyper,
  fromKitchen: KitchenMessage = NO_MESSAGE,
): FoulingPosterior {
  const run: Run = {
    bank: startBank(hyper, history.startedClean),
    day: toDay(history.startedOn),
    fanDown: false,
    evidence: { cleanings: 0, grades: 0, readings: 0, setAside: 0 },
    lastCleanedDay: history.startedClean ? toDay(history.startedOn) : null,
    bornDay: toDay(history.startedOn) - (history.startedClean ? 0 : UNKNOWN_RUN.mean),
  };
  const events = ordered(history.events);
  if (events[0] && events[0].on < history.startedOn)
    throw new RangeError(`An event of ${events[0].on} is older than the record, which starts on ${history.startedOn}.`);
  return play(run, events, exposure, hyper, fromKitchen);
}

/**
 * The same after some more events, without the history: identical to starting afresh with all of them.
 * Events older than the newest day already taken cannot be added (RangeError): rebuild from the history instead.
 */
export function updatePosterior(
  before: FoulingPosterior,
  events: readonly UnitEvent[],
  hyper: Hyper,
  fromKitchen: KitchenMessage = before.fromKitchen,
): FoulingPosterior {
  const { settled, today } = before.state;
  const oldest = today[0]?.on ?? before.asOf;
  const late = events.find((e) => e.on < oldest);
  if (late)
    throw new RangeError(
      `An event of ${late.on} arrived after one of ${oldest}: rebuild the posterior from the whole history.`,
    );
  if (hyper.modelVersion !== before.modelVersion)
    throw new RangeError(`Stored under model ${before.modelVersion}, not ${hyper.modelVersion}: rebuild it.`);
  return play(thaw(settled), ordered([...today, ...events]), before.exposure, hyper, fromKitchen);
}

/** The same belief after hearing the neighbours again; nothing of the unit's own evidence is touched. */
export function withKitchen(before: FoulingPosterior, hyper: Hyper, fromKitchen: KitchenMessage): FoulingPosterior {
  const { settled, today } = before.state;
  const run: Run = {
    ...thaw(settled),
    bank: Float64Array.from(before.state.live),
    day: toDay(before.asOf),
    evidence: before.evidence,
    lastCleanedDay: before.lastCleanedOn === null ? null : toDay(before.lastCleanedOn),
    bornDay: toDay(before.asOf) - before.state.age,
  };
  return finish(settled, today, run, before.exposure, hyper, fromKitchen);
}
