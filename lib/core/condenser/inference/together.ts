import { lowerFactor } from './lower-factor';
import { AIR, CHARGE, GAIN, GAS, LN_EVAP, LN_K, LN_PUMP, LN_VALVE, OVER } from './state';

/**
 * What independent normal spreads leave out where hypotheses are weighed (`evidence.ts`): general in kind, its numbers measured on machines
 * of nine makes of the outside plant (A, C to J, tidy and as in a kitchen). Kept is what two halves of the makes agreed on, rounded; what a
 * cause moves besides is drawn back by a fifth.
 */

/** A machine's own ways, in the order of the vectors here, and the unknowns they are. */
const OWN_WAYS = ['evaporator', 'pumping', 'gain', 'charge', 'expansion', 'over'] as const;
type OwnWay = (typeof OWN_WAYS)[number];
export const TOGETHER: readonly number[] = [LN_EVAP, LN_PUMP, GAIN, CHARGE, LN_VALVE, OVER];
const N = TOGETHER.length;

/**
 * Up to so much a reading or balance the sum of squares counts as a normal's; beyond it as a Student t's with so many degrees of freedom
 * (a normal's at the join, in value and slope). Nearer than that nothing is made of it: readings that fit too well are chance.
 */
export const TAIL = { from: 0.6, free: 5 } as const;

/** From spreads (as a part of those in `priors.ts`) and correlations to the lower factor of their covariance. */
function hung(sd: Partial<Record<OwnWay, number>>, together: readonly (readonly [OwnWay, OwnWay, number])[]): Float64Array {
  const cov = new Float64Array(N * N);
  const of = (way: OwnWay) => OWN_WAYS.indexOf(way);
  OWN_WAYS.forEach((way, i) => (cov[i * N + i] = (sd[way] ?? 1) ** 2));
  for (const [a, b, r] of together) {
    const [i, j] = [Math.max(of(a), of(b)), Math.min(of(a), of(b))];
    cov[i * N + j] = r * (sd[a] ?? 1) * (sd[b] ?? 1);
  }
  lowerFactor(cov, cov, N, N);
  return cov;
}

/**
 * How sound machines of a kind differ in several ways at once, and how they go on differing from one reading of a machine to the next once
 * it has been read by the same means (times `LEFT_WHEN_LEARNT`): gas at the discharge and the tube stay with a machine, an evaporator with a valve hardly does.
 */
export const HANGS: Readonly<Record<'capillary' | 'valve', { kind: Float64Array; learnt: Float64Array }>> = {
  capillary: {
    kind: hung({ pumping: 2.1, charge: 1.5, expansion: 0.6, over: 1.2 }, [
      ['evaporator', 'charge', -0.6],
      ['gain', 'charge', 0.4],
      ['gain', 'expansion', -0.8],
      ['charge', 'expansion', -0.4],
      ['charge', 'over', -0.3],
      ['expansion', 'over', -0.2],
    ]),
    learnt: hung({ charge: 1.1, over: 0.6 }, [
      ['gain', 'charge', 0.4],
      ['gain', 'expansion', -0.2],
      ['gain', 'over', 0.8],
      ['charge', 'over', 0.4],
      ['expansion', 'over', -0.2],
    ]),
  },
  valve: {
    kind: hung({ evaporator: 1.4, pumping: 1.3, gain: 1.3 }, [
      ['evaporator', 'pumping', -0.7],
      ['evaporator', 'gain', 0.3],
      ['pumping', 'gain', -0.2],
      ['charge', 'over', -0.3],
    ]),
    learnt: hung({ evaporator: 2.4, gain: 1.3, charge: 0.6, over: 0.3 }, [
      ['evaporator', 'gain', 0.6],
      ['evaporator', 'charge', 0.8],
      ['gain', 'charge', 0.8],
      ['gain', 'over', -0.4],
      ['charge', 'over', -0.3],
    ]),
  },
};

/** Hypotheses that move something of the machine, and those that move nothing of it but the condenser's air side. */
export type Way = 'nothing' | 'gas' | 'overcharge' | 'leak' | 'restriction' | 'ice' | 'dirt' | 'fan' | 'valves';

/** What a hypothesis may seem to move besides: own ways, gas, air at the coil and the condenser's conductance. */
export const MOVED: readonly number[] = [...TOGETHER, GAS, AIR, LN_K];

export type Moved = {
  /** By how much each seems moved besides, in the order of `MOVED`. */
  mean: Float64Array;
  /** How far what is added to own ways spreads. */
  sd: Float64Array;
  /** A valve's superheat, K. */
  superheatK: number;
  /** Spread of what the cause itself moves, as a part of that in `SHIFTS`. */
  severity: number;
  /** ln of how much oftener it is met than `BEFORE` and its share say. */
  lnMet: number;
};

type More = { severity?: number; lnMet?: number; spread?: Partial<Record<OwnWay, number>> };

/** `by`: in the order of `MOVED`, then superheat; what is left out is nothing. */
function moved(by: readonly number[], { severity = 1, lnMet = 0, spread = {} }: More = {}): Moved {
  return {
    mean: Float64Array.from(MOVED, (_, i) => by[i] ?? 0),
    sd: Float64Array.from(OWN_WAYS, (way) => spread[way] ?? 0),
    superheatK: by[MOVED.length] ?? 0,
    severity,
    lnMet,
  };
}

/**
 * What each cause seems to move besides, in this model, which is not the machine: ln, shares and K as in `state.ts`. Iced and stopped
 * evaporators let liquid back, so that the suction line warms less; worn valves heat their gas more than twice pumping says; a starved coil
 * gives off less than its dry part explains. In columns: evaporator, pumping, gain, charge, expansion, over (K), gas, air (K), coil, superheat (K).
 */
export const MOVES: Readonly<Record<Way, { capillary: Moved; valve: Moved }>> = {
  nothing: {
    capillary: moved([0.04, 0.012, 0.02, 0, -0.05, 0.9, 0, 0.3]),
    valve: moved([-0.03, 0, -0.02, 0.007, 0, 0.8, 0, 0, 0.03]),
  },
  gas: {
    capillary: moved([0.04, -0.018, 0.02, 0.005, -0.07, 1.4], { lnMet: 0.2 }),
    valve: moved([0, -0.032, 0, -0.004, 0, 1.8, -0.014, 0, 0.02], { lnMet: 0.2 }),
  },
  overcharge: {
    capillary: moved([-0.03, 0, -0.02, 0.024, 0, 1], { lnMet: 0.4, severity: 0.6 }),
    valve: moved([0, -0.041, 0.02, 0, 0, 0.7, 0, 0, 0.03], { lnMet: 0.1, severity: 0.8 }),
  },
  leak: {
    capillary: moved([-0.22, 0.007, 0.07, 0.004, -0.11, -0.5, 0.009, 0, 0.03], { severity: 0.5 }),
    valve: moved([-0.06, 0.007, 0, 0, 0, -0.6, -0.007, 0.3, 0, 0.5], { lnMet: 0.4, severity: 0.9 }),
  },
  restriction: {
    capillary: moved([-0.23, 0.015, 0, -0.032, -0.13, -0.6, 0.012], { lnMet: 0.7, severity: 0.3 }),
    valve: moved([-0.04, 0.011, 0.04, -0.019, -0.08, 0, 0, 0, 0, -2.7], { lnMet: 0.5, severity: 0.4 }),
  },
  ice: {
    capillary: moved([0, 0, -0.1, -0.008, 0, 3.2], { lnMet: 0.1, severity: 0.7, spread: { gain: 0.05 } }),
    valve: moved([0, 0, -0.03, 0, 0, -0.5, -0.005], { lnMet: -0.2, severity: 0.9 }),
  },
  dirt: {
    capillary: moved([0.11, 0.007, 0, 0, 0.02, 1.1], { lnMet: 0.2 }),
    valve: moved([-0.03, 0, -0.02, -0.006], { lnMet: 0.1, severity: 0.6 }),
  },
  fan: {
    capillary: moved([0, 0, -0.13, 0.033], { lnMet: 0.2, spread: { gain: 0.02 } }),
    valve: moved([0, 0, 0, 0, 0, 0, 0, 0, 0, 0.5], { lnMet: 0.1, severity: 1.5 }),
  },
  valves: {
    capillary: moved([0.04, 0, 0, 0.004, 0.02, 5.3, -0.005, 0.5], { lnMet: 0.4, severity: 0.7 }),
    valve: moved([0.05, 0.05, 0, -0.014, 0, 3.6, 0.005, 0.4, 0, 0.9], { lnMet: 0.4, severity: 0.8 }),
  },
};
