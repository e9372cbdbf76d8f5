import { GRADES, gradeIndex, type CoilGrade } from '../findings/grades';
import { allowChange, takeChange } from './change';
import { clean, cleanDeep, depositMean, depositVariance, observeGrade, observeReading, predict, prune, STRIDE, type Bank } from './filter';
import type { Exposure, Phase, UnitEvent } from './history';
import { priorTable, RATE_COUNT, SHAPES, type Hyper } from './hyper';
import { seasonFactor } from './season';
import { ownWeights } from './pooling';

export type Evidence = { cleanings: number; grades: number; readings: number; setAside: number };

/** The filter on its way through a history. */
export type Run = {
  bank: Bank;
  day: number;
  /** The condenser fan is known to be dead: readings then speak of the fan, not of the coil. */
  fanDown: boolean;
  evidence: Evidence;
  lastCleanedDay: number | null;
  /** Day from which the coil's age counts: the last cleaning, or a guess at it. */
  bornDay: number;
};

/**
 * Deposits between which a grade places a coil. The best has an end too: nothing is cleaner than clean, and an eye that is off by more than
 * twice its spread is not what is seen. Else a coil of which nobody knows how long it had run could be believed to have started below nothing.
 */
function gradeBounds(hyper: Hyper, grade: CoilGrade): [low: number, high: number] {
  const i = gradeIndex('coil', grade);
  const t = hyper.grades.thresholds;
  return [i <= 0 ? -2 * hyper.grades.sd : (t[i - 1] as number), i >= t.length ? Infinity : (t[i] as number)];
}

/** Worst deposit that the day's own look at the coil leaves believable: a bad reading of a clean coil is a jump. */
function believable(hyper: Hyper, today: readonly UnitEvent[], phase: Phase): number {
  let top = Infinity;
  for (const e of today)
    if (e.kind === 'coil' && e.phase === phase) top = Math.min(top, gradeBounds(hyper, e.grade)[1] + 2 * hyper.grades.sd);
  return top;
}

const weights = new Float64Array(SHAPES * RATE_COUNT);
const doubts = new Float64Array(SHAPES * RATE_COUNT);

/** Told of each grade how likely it was misread; for learning whose eye slips at what. */
export type Doubts = (grade: Extract<UnitEvent, { kind: 'coil' }>, misread: number) => void;

/** Chance that this look was misread, and how likely its grade is then: its person's own where those are known. */
function slipOf(hyper: Hyper, { by, grade }: Pick<Extract<UnitEvent, { kind: 'coil' }>, 'by' | 'grade'>): { misread: number; any: number } {
  const own = by === undefined ? undefined : hyper.eyes[by];
  if (!own) return { misread: hyper.misread, any: 1 / GRADES.coil.length };
  const misread = own.reduce((a, b) => a + b, 0);
  return { misread, any: (own[gradeIndex('coil', grade)] ?? 0) / misread };
}

function look(run: Run, hyper: Hyper, exposure: Exposure, e: Extract<UnitEvent, { kind: 'coil' }>, doubted?: Doubts): void {
  const [low, high] = gradeBounds(hyper, e.grade);
  observeGrade(run.bank, low, high, { sd: hyper.grades.sd, ...slipOf(hyper, e) }, doubted ? doubts : undefined);
  run.evidence.grades++;
  if (!doubted) return;
  ownWeights(run.bank, hyper, exposure.placement, weights);
  let sum = 0;
  for (let i = 0; i < run.bank.length / STRIDE; i++) sum += (weights[i] as number) * (doubts[i] as number);
  doubted(e, sum);
}

function read(run: Run, hyper: Hyper, exposure: Exposure, lnK: number, sd: number, top: number): void {
  const { bank } = run;
  ownWeights(bank, hyper, exposure.placement, weights);
  let mean = 0;
  let square = 0;
  for (let i = 0, o = 0; o < bank.length; i++, o += STRIDE) {
    const m = depositMean(bank, o);
    mean += (weights[i] as number) * m;
    square += (weights[i] as number) * (m * m + depositVariance(bank, o));
  }
  // Clipping keeps the order of readings: a worse one never counts for less, but no single one can make a rate.
  const reach = hyper.clipSds * Math.sqrt(Math.max(square - mean * mean, 0) + sd * sd);
  const seen = Math.min(-lnK, top);
  observeReading(run.bank, Math.min(Math.max(seen, mean - reach), mean + reach), sd);
}

/** What the day says of the condenser fan. */
function fanOf(today: readonly UnitEvent[]): { failed: boolean; works: boolean } {
  const fans = today.filter((e) => e.kind === 'fan');
  return { failed: fans.some((e) => e.grade === 'failed'), works: fans.some((e) => e.grade !== 'failed') };
}

/** Leads a bank as the run stands on to a day of which nothing was seen yet. Changes `bank`. */
export function leadTo(bank: Bank, { day: from, lastCleanedDay }: Run, hyper: Hyper, { placement }: Exposure, day: number): void {
  predict(
    bank,
    hyper,
    lastCleanedDay === null ? null : from - lastCleanedDay,
    day - from,
    seasonFactor(hyper.season[placement], from, day - from),
  );
}

/** Takes all events of one day, in order. Changes `run`. */
export function takeDay(run: Run, hyper: Hyper, exposure: Exposure, day: number, today: readonly UnitEvent[], doubted?: Doubts): void {
  const prior = priorTable(hyper, exposure.placement);
  leadTo(run.bank, run, hyper, exposure, day);
  run.day = day;
  const { failed, works } = fanOf(today);
  const down = failed || (run.fanDown && !works);
  for (const e of today) {
    if (e.kind === 'change') run.bank = takeChange(run.bank, hyper, prior, e.said);
    else if (e.kind === 'coil') look(run, hyper, exposure, e, doubted);
    else if (e.kind === 'reading') takeReading(run, hyper, exposure, e, today, down);
    else if (e.kind === 'cleaning') takeCleaning(run, hyper, exposure, e, day);
  }
  const cleaned = today.some((e) => e.kind === 'cleaning');
  // A fan found dead and mended the same day is sound from then on; so is one nobody complained of at a later cleaning.
  run.fanDown = failed ? !works : down && !cleaned;
  run.bank = prune(run.bank, prior.logMarginal);
}

type Of<K extends UnitEvent['kind']> = Extract<UnitEvent, { kind: K }>;

/** A reading counts unless it was set aside, or a dead fan (`down`) speaks in the coil's place; one that taught what clean is says no more. */
function takeReading(run: Run, hyper: Hyper, exposure: Exposure, e: Of<'reading'>, today: readonly UnitEvent[], down: boolean): void {
  if (e.setAside !== undefined || down || !(e.sd > 0) || !Number.isFinite(e.lnK)) {
    run.evidence.setAside++;
    return;
  }
  if (!e.teaches) read(run, hyper, exposure, e.lnK, e.sd, believable(hyper, today, e.phase));
  run.evidence.readings++;
}

function takeCleaning(run: Run, hyper: Hyper, exposure: Exposure, e: Of<'cleaning'>, day: number): void {
  clean(run.bank, hyper, day - run.bornDay);
  if (e.deep) cleanDeep(run.bank);
  const chance = -Math.expm1((-hyper.changePerYear * Math.max(14, day - run.bornDay)) / 365.25);
  if (chance > 0) run.bank = allowChange(run.bank, hyper, priorTable(hyper, exposure.placement), chance);
  run.evidence.cleanings++;
  run.lastCleanedDay = run.bornDay = day;
}
