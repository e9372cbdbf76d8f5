import type { Belief } from './inference/infer';

/** What a mixture's lower and upper half-width are multiplied by. */
export type Width = { low: number; high: number };

/** ln of it where nothing is lost, where a quarter and where half of the conductance is. */
type Knots = readonly [none: number, some: number, deep: number];
type Ends = { low: Knots; high: Knots };

/**
 * The same for all readings, then what a capillary tube, line temperatures read, a room thermometer alone, a baseline of the unit's own, and
 * such a one with line temperatures add to it, and a valve whose lines were not read.
 */
type Table = { all: Ends; capillary: Ends; lines: Ends; room?: Ends; learnt?: Ends; learntLines?: Ends; valveUnread?: Ends };

/**
 * A mixture is as wide as its hypotheses' errors; how often its band held, by depth, expansion and what was read, sets these. Set on the
 * outside plant, part A, each drawn towards nothing and rounded; cooling on A, F and G together, energy on A and C to M, as what one make's
 * cells ask for another's do not; the discharge's on A and C to L together, every make alike in weight, so that each end is missed as often.
 */
const WIDTHS: Record<'conductance' | 'cooling' | 'energy' | 'discharge', Table> = {
  conductance: {
    all: { low: [-0.05, 0, 0.05], high: [-0.3, -0.15, -0.05] },
    capillary: { low: [0.15, 0.05, 0.05], high: [-0.2, -0.15, -0.2] },
    lines: { low: [0.1, 0.05, -0.05], high: [-0.1, 0, -0.15] },
    room: { low: [-0.45, -0.2, 0], high: [0.15, 0.2, 0.25] },
    learnt: { low: [-0.1, -0.15, -0.1], high: [-0.1, 0, 0] },
  },
  cooling: {
    all: { low: [1.05, -0.65, 0.25], high: [0.3, -1.05, -0.3] },
    capillary: { low: [0.3, -0.1, -0.35], high: [1.1, 0.5, 0.35] },
    lines: { low: [0.05, 0.25, -0.3], high: [-0.1, 0, -0.05] },
    room: { low: [-0.15, -0.15, 0], high: [0.1, 0.1, 0] },
    learnt: { low: [-0.4, -0.1, 0], high: [-0.1, 0.1, 0] },
    learntLines: { low: [-0.15, -0.15, -0.15], high: [-0.15, -0.15, -0.15] },
  },
  energy: {
    all: { low: [1.1, -0.5, 0.15], high: [0.1, -0.75, -0.1] },
    capillary: { low: [0.3, 0.15, -0.1], high: [0.7, -0.2, 0.1] },
    lines: { low: [0.1, 0.15, -0.05], high: [-0.15, -0.05, -0.1] },
    room: { low: [-0.15, -0.2, 0], high: [0.05, 0.1, 0] },
    learnt: { low: [-0.3, -0.05, 0], high: [-0.05, 0, 0] },
    learntLines: { low: [-0.15, -0.15, -0.15], high: [-0.15, -0.15, -0.15] },
  },
  discharge: {
    all: { low: [-0.2, -0.15, 0.25], high: [0.15, 0.2, 0.25] },
    capillary: { low: [0.45, 0.1, -0.25], high: [-0.3, -0.4, -0.05] },
    lines: { low: [-0.45, -0.25, -0.7], high: [-0.45, -0.45, -0.25] },
    learntLines: { low: [-0.1, -0.1, -0.1], high: [-0.2, -0.2, -0.2] },
    valveUnread: { low: [-0.05, -0.05, -0.05], high: [-0.15, -0.15, -0.15] },
  },
};
export type Banded = keyof typeof WIDTHS;

/** −ln(K/K_clean) at the second knot and the third. */
const SOME = 0.25;
const DEEP = 0.6;

/** `out`: how far, from 0 to 1, a loss stands out from nothing; where it is given the first knot goes by it. */
export function widthOf(banded: Banded, belief: Belief, out?: number): Width {
  const { scene, measured } = belief;
  const loss = scene.lnClean - measured.lnK;
  const deep = part((loss - SOME) / (DEEP - SOME));
  const some = out ?? part(loss / SOME);
  const { all, capillary, lines, room, learnt, learntLines, valveUnread } = WIDTHS[banded];
  const reading = scene.reading;
  const read = reading.suctionLineK !== undefined;
  const mine = [
    all,
    scene.machine.capillary ? capillary : undefined,
    read ? lines : undefined,
    reading.airInK === undefined ? room : undefined,
    scene.learnt ? learnt : undefined,
    scene.learnt && read ? learntLines : undefined,
    read || scene.machine.capillary ? undefined : valveUnread,
  ];
  const ln = (end: keyof Ends) =>
    mine.reduce((sum, t) => (t ? sum + t[end][0] * (1 - some) + some * (t[end][1] * (1 - deep) + t[end][2] * deep) : sum), 0);
  return { low: Math.exp(ln('low')), high: Math.exp(ln('high')) };
}

/** As a part of a way, from 0 to 1. */
export const part = (x: number): number => Math.min(1, Math.max(0, x));
