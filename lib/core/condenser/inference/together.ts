import { lowerFactor } from './lower-factor';
import { CHARGE, GAIN, LN_EVAP, LN_PUMP, LN_VALVE, OVER } from './state';

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

/** Hypotheses that move something of the machine. */
export type Way = 'gas' | 'overcharge' | 'leak' | 'restriction' | 'ice' | 'dirt' | 'fan' | 'valves';

export type Moved = {
  /** By how much each own way seems moved besides, and how far that spreads. */
  mean: Float64Array;
  sd: Float64Array;
  /** A valve's superheat, K. */
  superheatK: number;
  /** Spread of what the cause itself moves, as a part of that in `SHIFTS`. */
  severity: number;
  /** ln of how much oftener it is met than `BEFORE` and its share say. */
  lnMet: number;
};

type More = { severity?: number; lnMet?: number; spread?: Partial<Record<OwnWay, number>> };

function moved(
  { superheat = 0, ...mean }: Partial<Record<OwnWay | 'superheat', number>>,
  { severity = 1, lnMet = 0, spread = {} }: More = {},
): Moved {
  const vector = (of: Partial<Record<OwnWay, number>>) => Float64Array.from(OWN_WAYS, (way) => of[way] ?? 0);
  return { mean: vector(mean), sd: vector(spread), superheatK: superheat, severity, lnMet };
}

/** A sound machine, and what moves nothing of it. */
export const UNMOVED = moved({});

/**
 * What each cause seems to move besides, in this model, which is not the machine: ln, shares and K as in `state.ts`. Iced and stopped
 * evaporators let liquid back, so that the suction line warms less; worn valves heat their gas more than twice pumping says; a starved coil
 * gives off less than its dry part explains.
 */
export const MOVES: Readonly<Record<Way, { capillary: Moved; valve: Moved }>> = {
  gas: {
    capillary: moved({ pumping: -0.018, charge: 0.009, expansion: -0.05 }, { lnMet: -0.2 }),
    valve: moved({ pumping: -0.033, charge: -0.006, superheat: -0.8 }, { lnMet: 0.1 }),
  },
  overcharge: {
    capillary: moved({ charge: 0.019 }, { severity: 0.7 }),
    valve: moved({ pumping: -0.032, gain: 0.03 }, { lnMet: -0.1, severity: 0.8 }),
  },
  leak: {
    capillary: moved({ evaporator: -0.17, gain: 0.04, expansion: -0.07 }, { lnMet: 0.2, severity: 0.6 }),
    valve: moved({}, { lnMet: 0.4 }),
  },
  restriction: {
    capillary: moved({ evaporator: -0.17, charge: -0.026, expansion: -0.08 }, { lnMet: 0.5, severity: 0.3 }),
    valve: moved({ gain: 0.03, charge: -0.016, expansion: -0.05, superheat: -1.7 }, { lnMet: 0.4, severity: 0.5 }),
  },
  ice: {
    capillary: moved({ gain: -0.08, over: 3 }, { lnMet: 0.1, severity: 0.7, spread: { gain: 0.05 } }),
    valve: moved({ gain: -0.02 }, { lnMet: -0.2, severity: 0.9 }),
  },
  dirt: {
    capillary: moved({ evaporator: 0.09, gain: -0.03, expansion: 0.05 }, { lnMet: 0.2 }),
    valve: moved({}, { severity: 0.6 }),
  },
  fan: {
    capillary: moved({ gain: -0.12, charge: 0.031 }, { lnMet: 0.2, spread: { gain: 0.02 } }),
    valve: moved({ gain: -0.02, superheat: 0.5 }, { severity: 1.4 }),
  },
  valves: {
    capillary: moved({ expansion: 0.03, over: 4.2 }, { lnMet: 0.3, severity: 0.8 }),
    valve: moved({ evaporator: 0.06, pumping: 0.036, gain: 0.01, charge: -0.012, over: 3.7, superheat: 0.7 }, { lnMet: 0.2 }),
  },
};
