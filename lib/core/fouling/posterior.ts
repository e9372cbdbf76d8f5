import { toDay } from '../calendar';
import type { Placement } from '../equipment/build';
import { prune, startBank, STRIDE, type Bank } from './filter';
import { ordered, type Exposure, type UnitEvent, type UnitHistory } from './history';
import { priorTable, RATE_COUNT, SHAPES, type Hyper } from './hyper';
import { NO_MESSAGE, weigh, type KitchenMessage } from './pooling';
import { takeDay, type Doubts, type Run } from './run';
import { plain, summarise, type Filtered, type FoulingPosterior, type Snapshot } from './summary';

function freeze(run: Run): Snapshot {
  return { ...run, bank: plain(run.bank), evidence: { ...run.evidence } };
}

function thaw(s: Snapshot): Run {
  return { ...s, bank: new Float64Array(s.bank), evidence: { ...s.evidence } };
}

/** Runs through sorted events, with a stop before the last day to keep that day open for late arrivals. */
function play(run: Run, events: UnitEvent[], exposure: Exposure, hyper: Hyper, doubted?: Doubts): Filtered {
  let i = 0;
  let open: Snapshot | null = null;
  let today: UnitEvent[] = [];
  while (i < events.length) {
    const on = (events[i] as UnitEvent).on;
    let end = i + 1;
    while (end < events.length && (events[end] as UnitEvent).on === on) end++;
    today = events.slice(i, end);
    if (end === events.length) open = freeze(run);
    takeDay(run, hyper, exposure, toDay(on), today, doubted);
    i = end;
  }
  return { exposure, settled: open ?? freeze(run), today, run };
}

// A history always opens on the same bank, so it is made once; the run's own copy lives in one scratch array, from
// which `summarise` copies what is to be kept.
const openings = new WeakMap<Hyper, Map<string, Bank>>();
const scratch = new Float64Array(SHAPES * RATE_COUNT * STRIDE);

function opening(hyper: Hyper, placement: Placement, clean: boolean): Bank {
  let bankOf = openings.get(hyper);
  if (!bankOf) openings.set(hyper, (bankOf = new Map()));
  const key = clean ? placement : `${placement}?`;
  let bank = bankOf.get(key);
  if (!bank) bankOf.set(key, (bank = prune(startBank(hyper, clean), priorTable(hyper, placement).logMarginal)));
  scratch.set(bank);
  return scratch.subarray(0, bank.length);
}

/** A run at the start of a history. Its bank is only good until the next one starts. */
export function startRun({ startedOn, startedClean }: UnitHistory, { placement }: Exposure, hyper: Hyper): Run {
  return {
    bank: opening(hyper, placement, startedClean),
    day: toDay(startedOn),
    fanDown: false,
    evidence: { cleanings: 0, grades: 0, readings: 0, setAside: 0 },
    lastCleanedDay: startedClean ? toDay(startedOn) : null,
    bornDay: toDay(startedOn) - (startedClean ? 0 : hyper.unknownRunDays),
  };
}

/** The filter after a whole history. Its bank is only good until the next call: summarise or copy it first. */
export function filterHistory(history: UnitHistory, exposure: Exposure, hyper: Hyper, doubted?: Doubts): Filtered {
  const run = startRun(history, exposure, hyper);
  const events = ordered(history.events);
  if (events[0] && events[0].on < history.startedOn)
    throw new RangeError(`An event of ${events[0].on} is older than the record, which starts on ${history.startedOn}.`);
  return play(run, events, exposure, hyper, doubted);
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
  return summarise(filterHistory(history, exposure, hyper), hyper, fromKitchen);
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
  if (late) throw new RangeError(`An event of ${late.on} arrived after one of ${oldest}: rebuild the posterior from the whole history.`);
  if (hyper.modelVersion !== before.modelVersion)
    throw new RangeError(`Stored under model ${before.modelVersion}, not ${hyper.modelVersion}: rebuild it.`);
  return summarise(play(thaw(settled), ordered([...today, ...events]), before.exposure, hyper), hyper, fromKitchen);
}

/** What a unit tells its kitchen, before the rest of its belief is worked out: `whole` is its `posterior` once its neighbours are heard. */
export function beforeKitchen(history: UnitHistory, exposure: Exposure, hyper: Hyper) {
  const filtered = filterHistory(history, exposure, hyper);
  const run = { ...filtered.run, bank: filtered.run.bank.slice() };
  const { message } = weigh(run.bank, hyper, exposure.placement, NO_MESSAGE);
  return { message, whole: (fromKitchen: KitchenMessage) => summarise({ ...filtered, run }, hyper, fromKitchen) };
}

/** The belief if the newest day's events had been these instead; all must be of that day. */
export function asIfToday(before: FoulingPosterior, today: readonly UnitEvent[], hyper: Hyper): FoulingPosterior {
  if (today.some((e) => e.on !== before.asOf)) throw new RangeError(`Only events of ${before.asOf} can be replaced.`);
  return summarise(play(thaw(before.state.settled), ordered(today), before.exposure, hyper), hyper, before.fromKitchen);
}
