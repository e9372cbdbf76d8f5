import { Z80 } from '../bands';
import type { Near } from '../machine/evaporator';
import { see, type Seen } from '../machine/inverse';
import type { UnitModel } from '../machine/model';
import type { Known, Resolved } from './resolve';

/** Without a suction gauge the evaporator's difference is only typical of the kind: ln, one standard deviation. */
const EVAPORATOR_LN_SD = 0.25;

/** A reading with one input at its upper and its lower 80 % point; `ownShare` as of that input. */
export type Moved = { high: Seen; low: Seen; ownShare: number };

/**
 * The reading as it would look with each uncertain input moved, one at a time.
 *
 * @param near the reading solved, where suction was not measured
 */
export function* moved(model: UnitModel, r: Resolved, near: Near | undefined): Generator<Moved> {
  const shift = (key: keyof Resolved, known: Known): Moved => {
    const at = (sign: number) => see(model, { ...r, [key]: { ...known, value: known.value + sign * Z80 * known.sd } }, near);
    return { high: at(1), low: at(-1), ownShare: known.ownShare };
  };
  yield shift('head', r.head);
  yield shift('airK', r.airK);
  if (r.suctionPa) yield shift('suctionPa', r.suctionPa);
  else {
    yield shift('boxK', r.boxK);
    const at = (sign: number) => see({ ...model, evaporatorUA: model.evaporatorUA * Math.exp(sign * Z80 * EVAPORATOR_LN_SD) }, r, near);
    yield { high: at(1), low: at(-1), ownShare: 1 };
  }
  yield r.suctionLineK ? shift('suctionLineK', r.suctionLineK) : shift('superheatK', r.superheatK);
  yield r.liquidLineK ? shift('liquidLineK', r.liquidLineK) : shift('subcoolingK', r.subcoolingK);
  if (r.dischargeLineK) yield shift('dischargeLineK', r.dischargeLineK);
}
