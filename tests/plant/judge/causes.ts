import type { Row } from './cases';
import { SECOND_TROUBLE } from '../world/beside';
import type { State } from '../world/states';

/** The cause that a state is, by the estimator's names. */
const CAUSE: Record<State, string> = {
  clean: 'nothing',
  foul15: 'coil_fouling',
  foul30: 'coil_fouling',
  foul50: 'coil_fouling',
  blocked: 'blocked_air',
  dead_fan: 'condenser_fan',
  slow_fan: 'condenser_fan',
  recirculation: 'recirculation',
  gas: 'non_condensables',
  overcharge: 'overcharge',
  low_charge: 'low_charge',
  restriction: 'low_charge',
  iced: 'evaporator_coil',
  dirty_evaporator: 'evaporator_coil',
  dead_box_fan: 'evaporator_fan',
  leaking_valves: 'weak_compressor',
  head_control: 'head_pressure_control',
  high_load: 'high_load',
  not_steady: 'not_steady',
  bad_instrument: 'reading_fault',
};

/** The trouble, one: where more than one thing is wrong, what takes more of the cooling on the hot day. */
const causeOf = (row: Pick<Row, 'state' | 'beside'>): string => (row.beside?.coilIsMore ? CAUSE.foul30 : CAUSE[row.state]);

/** What stands beside the trouble and is worth an hour too; null where nothing does. */
export function besideIt(row: Pick<Row, 'state' | 'beside'>): string | null {
  if (!row.beside || COIL_STATES.includes(row.state) || row.beside.coilLost < SECOND_TROUBLE) return null;
  return row.beside.coilIsMore ? CAUSE[row.state] : CAUSE.foul30;
}

export const COIL_STATES: readonly State[] = ['clean', 'foul15', 'foul30', 'foul50'];
export const OTHER_STATES = (Object.keys(CAUSE) as State[]).filter((s) => !COIL_STATES.includes(s));

/** Weights as told; a refusal that names the cause (head held by its control, not yet steady) is as good as a weight of one. */
function weights(row: Row): ReadonlyMap<string, number> {
  const { answer: a } = row;
  const weights = new Map<string, number>(a.causes.map((c) => [c.id, c.weight]));
  if (weights.size > 0 || a.status === 'ok') return weights;
  const named: Record<string, string> = {
    head_control: 'head_pressure_control',
    not_steady: 'not_steady',
    impossible_reading: 'reading_fault',
  };
  const cause = named[a.reason];
  return cause ? new Map([[cause, 1]]) : weights;
}

export function leading(row: Row): { id: string; weight: number } | null {
  let best: { id: string; weight: number } | null = null;
  for (const [id, weight] of weights(row)) if (!best || weight > best.weight) best = { id, weight };
  return best;
}

/** True where the right cause is told before all others. */
export function named(row: Row): boolean {
  const right = causeOf(row);
  const first = leading(row);
  if (first?.id === right) return true;
  // Nothing wrong is told as "fine", whatever the list of causes leads with.
  return right === 'nothing' && (row.answer.verdict === 'fine' || row.answer.verdict === 'watch');
}

export const cleanIt = (row: Row): boolean => row.answer.verdict === 'clean_it';
/** Told in the sentence beside what leads. */
const ALSO = 0.2;
/** Both are told where two things are wrong: the one leads, the other is weighed enough to be said beside it. */
export const bothTold = (row: Row): boolean => {
  const [all, other] = [weights(row), besideIt(row)];
  return named(row) && other !== null && (all.get(other) ?? 0) > ALSO;
};
/** A cleaning asked for where the dirt is not worth an hour: an error, whatever is wrong. */
export const cleanedForNothing = (row: Row): boolean =>
  cleanIt(row) && !COIL_STATES.includes(row.state) && (row.beside?.coilLost ?? 0) < SECOND_TROUBLE;
/** A cleaning that is worth its hour, asked for where something else takes more, and that other thing not told beside it. */
export const otherUntold = (row: Row): boolean =>
  cleanIt(row) && besideIt(row) === CAUSE.foul30 && (weights(row).get(causeOf(row)) ?? 0) <= ALSO;
export const fine = (row: Row): boolean => row.answer.verdict === 'fine';

export type Tenth = { from: number; n: number; claimed: number; came: number };

/** Over every cause told with some weight: how often it was the one, by tenths of the weight. */
export function reliability(rows: readonly Row[]): Tenth[] {
  const tenths = Array.from({ length: 10 }, (_, i) => ({ from: i / 10, n: 0, claimed: 0, came: 0 }));
  for (const row of rows) {
    for (const [id, weight] of weights(row)) {
      const tenth = tenths[Math.min(9, Math.floor(weight * 10))];
      if (!tenth) continue;
      tenth.n++;
      tenth.claimed += weight;
      if (id === causeOf(row)) tenth.came++;
    }
  }
  return tenths.map((t) => ({ ...t, claimed: t.claimed / t.n, came: t.came / t.n }));
}
