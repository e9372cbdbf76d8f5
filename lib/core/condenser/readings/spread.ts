import { figure, Z80 } from '../bands';
import { nearOf } from '../machine/evaporator';
import { see, type Seen } from '../machine/inverse';
import type { UnitModel } from '../machine/model';
import { moved } from './moved';
import type { Resolved } from './resolve';
import type { Figure } from '../types';

/** One number with its 80 % distances down and up. */
export type Spread = { value: number; down: number; up: number };
/** With all that is uncertain, and with only what changes from one reading of the unit to the next. */
export type Spreads = { whole: Spread; repeat: Spread };

export type SeenWithSpread = {
  seen: Seen;
  condensingK: Spread;
  condensingDewK: Spread;
  riseK: Spread;
  /** Natural logarithm of conductance in W/K. */
  lnConductance: Spreads;
  /** The part of it that comes from the rise alone: what is left where an error of the duty cancels. */
  lnConductanceByRise: Spread;
  /** Natural logarithm of heat rejected in W. */
  lnDuty: Spreads;
};

/**
 * Heat rejected by the equations against the unit's own, one standard deviation: compressor constants are only
 * typical. It stays with the unit.
 */
const MODEL_SD = 0.02;

const OUTPUTS = [
  (s: Seen) => s.condensingK,
  (s: Seen) => s.condensingDewK,
  (s: Seen) => s.riseK,
  (s: Seen) => Math.log(s.conductanceWK),
  (s: Seen) => Math.log(s.heatRejectedW),
] as const;
const [CONDENSING, DEW, RISE, CONDUCTANCE, DUTY] = [0, 1, 2, 3, 4] as const;

/** Sums of squares, ups and downs apart, for one output. */
class Sum {
  private up = [0, 0];
  private down = [0, 0];
  constructor(private readonly value: number) {}
  /** A change at the 80 % point; `ownShare` of its variance stays with the unit. */
  add(change: number, ownShare: number): void {
    const into = change > 0 ? this.up : this.down;
    into[0]! += change * change;
    into[1]! += change * change * (1 - ownShare);
  }
  spread(which: 0 | 1): Spread {
    return { value: this.value, down: Math.sqrt(this.down[which]!), up: Math.sqrt(this.up[which]!) };
  }
  both(): Spreads {
    return { whole: this.spread(0), repeat: this.spread(1) };
  }
}

/**
 * What a reading shows, with the spread that instruments, steadiness and assumptions give it: each input is moved
 * by its 80 % point either way, one at a time, and the effects are combined in quadrature.
 *
 * @param scatterSdK unsteadiness of the rise
 */
export function seeWithSpread(model: UnitModel, r: Resolved, scatterSdK: number): SeenWithSpread {
  const seen = see(model, r);
  const near = r.suctionPa ? undefined : nearOf(model, seen.evaporatingDewK, seen.condensingDewK);
  const sums = OUTPUTS.map((read) => new Sum(read(seen)));
  for (const { high, low, ownShare } of moved(model, r, near)) {
    OUTPUTS.forEach((read, k) => {
      const value = read(seen);
      sums[k]!.add(read(high) - value, ownShare);
      sums[k]!.add(read(low) - value, ownShare);
    });
  }
  const scatter = Z80 * scatterSdK;
  const lnRise = (change: number) => Math.log(Math.max(0.05, 1 + change / seen.riseK));
  for (const sign of [1, -1]) {
    for (const k of [CONDENSING, DEW, RISE]) sums[k]!.add(sign * scatter, 0);
    sums[CONDUCTANCE]!.add(-lnRise(sign * scatter), 0);
    for (const k of [CONDUCTANCE, DUTY]) sums[k]!.add(sign * Z80 * MODEL_SD, 1);
  }
  const rise = sums[RISE]!.spread(0);
  const lnConductance = sums[CONDUCTANCE]!.both();
  return {
    seen,
    condensingK: sums[CONDENSING]!.spread(0),
    condensingDewK: sums[DEW]!.spread(0),
    riseK: rise,
    lnConductance,
    lnConductanceByRise: { value: lnConductance.whole.value, down: lnRise(rise.up), up: -lnRise(-rise.down) },
    lnDuty: sums[DUTY]!.both(),
  };
}

export function toFigure(s: Spread): Figure {
  return figure(s.value, s.value - s.down, s.value + s.up);
}

/** Figure of exp(s). */
export function expFigure(s: Spread): Figure {
  return figure(Math.exp(s.value), Math.exp(s.value - s.down), Math.exp(s.value + s.up));
}
