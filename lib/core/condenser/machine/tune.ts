import type { Seen } from './inverse';
import type { UnitModel } from './model';
import type { Resolved } from '../readings/resolve';

const within = (x: number, lo: number, hi: number) => Math.min(hi, Math.max(lo, x));

/**
 * The unit as this reading found it, for looking ahead: measured superheat, subcooling and evaporator difference
 * take the place of the typical ones, within what a working unit can show. A box that is being pulled down says
 * nothing of the evaporator, so it counts only near its set point.
 */
export function tuned(model: UnitModel, r: Resolved, seen: Seen, boxSetPointK: number): UnitModel {
  const superheatK = r.suctionLineK && r.suctionPa ? within(seen.superheatK, 2, 25) : model.superheatK;
  const subcoolingK = r.liquidLineK ? within(seen.subcoolingK, 0, 12) : model.subcoolingK;
  const difference = r.boxK.value - seen.evaporatingDewK;
  const settled = r.suctionPa && r.boxK.measured && Math.abs(r.boxK.value - boxSetPointK) < 4 && difference > 2;
  const seenUA = settled ? seen.cycle.cooling / difference : model.evaporatorUA;
  const evaporatorUA = model.evaporatorUA * within(seenUA / model.evaporatorUA, 0.5, 2);
  return { ...model, superheatK, subcoolingK, evaporatorUA };
}
