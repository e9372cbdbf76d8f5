import { cleanPrior, estimate, updateBaseline, type CleanBaseline, type Estimate, type Reading } from '../../../lib/core/condenser';
import { makeCase, type Case, type Looks } from '../world/case';
import { SET_NAMES, type InstrumentSet } from '../world/instruments';
import type { State } from '../world/states';
import type { Part } from '../world/templates';
import { followed } from './asked';

/** One answer of the estimator beside what is so. */
export type Row = {
  state: State;
  set: InstrumentSet;
  expansion: string;
  graded: boolean;
  based: boolean;
  warmBox: boolean;
  truth: Case['truth'];
  answer: Estimate;
  /** With a full set: answers after one, two … of the looks that were asked for. */
  after?: readonly Estimate[];
  template: string;
  seed: number;
  beside?: Case['beside'];
};

const EVAPORATOR_DIRT = { dirty_evaporator: 'clogged', iced: 'clean' } as const;

/** What was seen, in the fields that a reading has for it. */
function seen(looks: Looks, state: State) {
  return {
    coilGrade: looks.coilGrade,
    fanGrade: looks.fanGrade,
    airPathGrade: looks.airPathGrade ?? (looks.airPathBlocked ? ('blocked' as const) : ('open' as const)),
    iceGrade: looks.iceGrade,
    evaporatorFanGrade: looks.boxFanGrade,
    evaporatorCoilGrade: looks.evaporatorCoilGrade ?? (state === 'dirty_evaporator' ? EVAPORATOR_DIRT[state] : ('clean' as const)),
  };
}

function learnt(c: Case, set: InstrumentSet): CleanBaseline {
  let baseline = cleanPrior(c.unit);
  for (const readings of c.cleanReadings) baseline = updateBaseline(baseline, estimate(c.unit, readings[set], baseline, c.conditions));
  return baseline;
}

/** `looks`: how many of those asked for are taken as well, with a full set; none where it is left out. */
export type Ask = {
  part: Part;
  from: number;
  cases: number;
  sets?: readonly InstrumentSet[];
  made?: readonly Case[];
  looks?: number;
};

/** Every case, made before or now, by every set: blind and with grades, without and (where there is one) with a baseline of its own. */
export function answers({ part, from, cases, sets = SET_NAMES, made, looks = 0 }: Ask): Row[] {
  const rows: Row[] = [];
  for (const c of made ?? makeCases(part, from, cases)) {
    const warmBox = (c.readings.full.boxK ?? 0) > c.unit.boxSetPointK + 5;
    const head = {
      state: c.state,
      expansion: c.unit.expansion,
      warmBox,
      truth: c.truth,
      template: c.template,
      seed: c.seed,
      beside: c.beside,
    };
    for (const set of sets) {
      const reading = c.readings[set];
      const graded: Reading = { ...reading, ...seen(c.looks, c.state) };
      const prior = cleanPrior(c.unit);
      const add = (r: Reading, b: CleanBaseline, flags: { graded: boolean; based: boolean }) => {
        const after = set === 'full' && looks > 0 ? { after: followed(c, r, b, seen(c.looks, c.state), looks) } : {};
        rows.push({ ...head, set, ...flags, ...after, answer: estimate(c.unit, r, b, c.conditions) });
      };
      add(reading, prior, { graded: false, based: false });
      add(graded, prior, { graded: true, based: false });
      if (c.cleanReadings.length === 0) continue;
      const own = learnt(c, set);
      add(reading, own, { graded: false, based: true });
      add(graded, own, { graded: true, based: true });
    }
  }
  return rows;
}

function* makeCases(part: Part, from: number, cases: number): Generator<Case> {
  for (let n = from; n < from + cases; n++) {
    const c = makeCase(part, n);
    if (c) yield c;
  }
}
