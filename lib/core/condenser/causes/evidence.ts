import type { Seen } from '../machine/inverse';
import type { UnitModel } from '../machine/model';
import type { CauseId, CondenserUnit, Doubt, PastLoss, Reading } from '../types';

/** All that the rules may look at. */
export type Scene = {
  unit: CondenserUnit;
  reading: Reading;
  model: UnitModel;
  seen: Seen;
  /** ln(K_clean/K) over its standard deviation: how far the coil reads from clean. */
  z: number;
  /** 1 − K/K_clean and its standard deviation. */
  lost: number;
  lostSd: number;
  /** Rise the clean coil would show at this load, K. */
  cleanRiseK: number;
  /** What the evaporator would settle at for this box, K; NaN if nothing can be said. */
  usualEvaporatingK: number;
  history: readonly PastLoss[];
  doubts: readonly Doubt[];
};

/** A finding that speaks for (positive) or against (negative) a cause, in natural-log odds. */
export type Evidence = { cause: CauseId; weight: number; text: string };

export type Rule = (scene: Scene) => Evidence[];

/** A soft step: 0 well below the mark, `most` well above it. */
export function step(x: number, mark: number, width: number, most: number): number {
  return most / (1 + Math.exp((-4 * (x - mark)) / width));
}
