import { figure, Z80 } from './bands';
import { nearOf, type Near } from './evaporator';
import { see, type Seen } from './inverse';
import type { UnitModel } from './model';
import type { Known, Resolved } from './resolve';
import type { Figure } from './types';

/** One number with its 80 % distances down and up. */
export type Spread = { value: number; down: number; up: number };

export type SeenWithSpread = {
  seen: Seen;
  condensingK: Spread;
  condensingDewK: Spread;
  riseK: Spread;
  /** Natural logarithm of conductance in W/K. */
  lnConductance: Spread;
  /** The part of it that comes from the rise alone: what is left where an error of the duty cancels. */
  lnConductanceByRise: Spread;
  /** Natural logarithm of heat rejected in W. */
  lnDuty: Spread;
};

/** Heat rejected by the equations against a test bench, one standard deviation: compressor constants are only typical. */
const MODEL_SD = 0.02;
/** Without a suction gauge the evaporator's difference is only typical of the kind. */
const EVAPORATOR_LN_SD = 0.25;

/**
 * What a reading shows, with the spread that instruments, steadiness and assumptions give it: each input is moved
 * by its 80 % point either way, one at a time, and the effects are combined in quadrature.
 *
 * @param scatterSdK unsteadiness of the rise
 */
export function seeWithSpread(model: UnitModel, r: Resolved, scatterSdK: number): SeenWithSpread {
  const seen = see(model, r);
  const near = r.suctionPa ? undefined : nearOf(model, seen.evaporatingDewK, seen.condensingDewK);
  const base = outputs(seen);
  const down = new Array<number>(base.length).fill(0);
  const up = new Array<number>(base.length).fill(0);
  const note = (k: number, change: number) => {
    if (change > 0) up[k] = (up[k] as number) + change * change;
    else down[k] = (down[k] as number) + change * change;
  };
  for (const [a, b] of moved(model, r, near)) {
    const high = outputs(a);
    const low = outputs(b);
    base.forEach((v, k) => {
      note(k, (high[k] as number) - v);
      note(k, (low[k] as number) - v);
    });
  }
  const scatter = Z80 * scatterSdK;
  for (const sign of [1, -1]) {
    note(0, sign * scatter);
    note(1, sign * scatter);
    note(2, sign * scatter);
    note(3, -Math.log(Math.max(0.05, 1 + (sign * scatter) / seen.riseK)));
    note(3, sign * Z80 * MODEL_SD);
    note(4, sign * Z80 * MODEL_SD);
  }
  const spread = (k: number): Spread => ({
    value: base[k] as number,
    down: Math.sqrt(down[k] as number),
    up: Math.sqrt(up[k] as number),
  });
  const rise = spread(2);
  const lnRise = (change: number) => Math.log(Math.max(0.05, 1 + change / seen.riseK));
  return {
    seen,
    lnConductanceByRise: { value: base[3] as number, down: lnRise(rise.up), up: -lnRise(-rise.down) },
    condensingK: spread(0),
    condensingDewK: spread(1),
    riseK: rise,
    lnConductance: spread(3),
    lnDuty: spread(4),
  };
}

function outputs(s: Seen): number[] {
  return [s.condensingK, s.condensingDewK, s.riseK, Math.log(s.conductanceWK), Math.log(s.heatRejectedW)];
}

/** Pairs of the reading as it would look with one input high and low. */
function* moved(model: UnitModel, r: Resolved, near: Near | undefined): Generator<[Seen, Seen]> {
  const shift = (key: keyof Resolved, known: Known): [Seen, Seen] => {
    const at = (sign: number) =>
      see(model, { ...r, [key]: { ...known, value: known.value + sign * Z80 * known.sd } }, near);
    return [at(1), at(-1)];
  };
  yield shift('head', r.head);
  yield shift('airK', r.airK);
  if (r.suctionPa) yield shift('suctionPa', r.suctionPa);
  else {
    yield shift('boxK', r.boxK);
    const at = (sign: number) =>
      see({ ...model, evaporatorUA: model.evaporatorUA * Math.exp(sign * Z80 * EVAPORATOR_LN_SD) }, r, near);
    yield [at(1), at(-1)];
  }
  yield r.suctionLineK ? shift('suctionLineK', r.suctionLineK) : shift('superheatK', r.superheatK);
  yield r.liquidLineK ? shift('liquidLineK', r.liquidLineK) : shift('subcoolingK', r.subcoolingK);
  if (r.dischargeLineK) yield shift('dischargeLineK', r.dischargeLineK);
}

export function toFigure(s: Spread): Figure {
  return figure(s.value, s.value - s.down, s.value + s.up);
}

/** Figure of exp(s). */
export function expFigure(s: Spread): Figure {
  return figure(Math.exp(s.value), Math.exp(s.value - s.down), Math.exp(s.value + s.up));
}
