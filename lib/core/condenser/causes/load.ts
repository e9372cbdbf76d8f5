import { differenceWords } from '../words/both-units';
import { step, type Evidence, type Rule } from './evidence';
import { holdK } from './head-control';

/** Pull-down or a heavy load: more heat through the same coil. */
export const load: Rule = ({ reading, seen, unit, usualEvaporatingK }) => {
  const out: Evidence[] = [];
  if (reading.boxK !== undefined) {
    const warm = reading.boxK - unit.boxSetPointK;
    if (warm > 2.5)
      out.push({ cause: 'high_load', weight: step(warm, 5, 3, 2.6), text: `Box is ${differenceWords(warm)} over its set point` });
    else out.push({ cause: 'high_load', weight: -1.2, text: 'Box is at its set point' });
  }
  const warmer = seen.evaporatingDewK - usualEvaporatingK;
  if (reading.suctionPaGauge !== undefined && warmer > 4)
    out.push({
      cause: 'high_load',
      weight: step(warmer, 6, 4, 1.4),
      text: `Suction ${differenceWords(warmer)} higher than this box calls for`,
    });
  return out;
};

/** In cold air a head control, not the coil, sets the head. */
export const headControl: Rule = ({ unit, reading, seen, cleanRiseK }) => {
  const air = reading.airInK ?? reading.roomAirK;
  if (air === undefined || unit.hasHeadControl === false) return [];
  const hold = holdK(unit);
  const near = Math.abs(seen.condensingK - hold) < 5;
  const short = hold - (air + cleanRiseK);
  if (short > -1 && near)
    return [
      {
        cause: 'head_pressure_control',
        weight: step(short, 0, 3, 3),
        text: 'Cold air, and condensing where head controls usually hold it',
      },
    ];
  return [];
};

/** Readings that contradict each other. */
export const fault: Rule = ({ doubts, z }) => {
  const out: Evidence[] = [];
  if (doubts.length > 0)
    out.push({
      cause: 'reading_fault',
      weight: 1.5 + doubts.length,
      text: `${doubts.length} of the entries do not fit`,
    });
  if (z < -2) out.push({ cause: 'reading_fault', weight: step(-z, 2.5, 1.5, 2.2), text: 'Reads better than clean' });
  if (z < -1.3) out.push({ cause: 'low_charge', weight: step(-z, 2, 1.5, 1.2), text: 'Head lower than even a clean coil gives' });
  return out;
};
