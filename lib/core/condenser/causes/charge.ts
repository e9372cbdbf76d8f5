import { differenceWords } from '../words/both-units';
import { step, type Evidence, type Rule } from './evidence';

/** Subcooling and superheat: too much liquid in the coil, or too little. */
export const charge: Rule = ({ reading, seen, model, usualEvaporatingK }) => {
  const out: Evidence[] = [];
  const subcooling = reading.liquidLineK === undefined ? undefined : seen.subcoolingK;
  const superheat = reading.suctionLineK === undefined || reading.suctionPaGauge === undefined ? undefined : seen.superheatK;
  if (subcooling !== undefined) {
    const much = step(subcooling, model.subcoolingK + 5.5, 3, 3.5);
    if (much > 0.5) {
      out.push({
        cause: 'overcharge',
        weight: much,
        text: `Subcooling ${differenceWords(subcooling)}: liquid is backed up in the coil`,
      });
      out.push({
        cause: 'non_condensables',
        weight: much * 0.7,
        text: `Subcooling ${differenceWords(subcooling)} reads high, as it does with air in the system`,
      });
      out.push({
        cause: 'coil_fouling',
        weight: -much * 0.4,
        text: `Dirt alone does not raise subcooling to ${differenceWords(subcooling)}`,
      });
    } else {
      out.push({ cause: 'overcharge', weight: -1.5, text: `Subcooling ${differenceWords(subcooling)} is not high` });
      out.push({ cause: 'non_condensables', weight: -0.6, text: `Subcooling ${differenceWords(subcooling)} is not high` });
    }
    const little = step(1.2 - subcooling, 0, 1.2, 2);
    if (little > 0.4)
      out.push({
        cause: 'low_charge',
        weight: little,
        text: `Subcooling only ${subcooling < 0 ? 'none' : differenceWords(subcooling)}`,
      });
    else out.push({ cause: 'low_charge', weight: -1, text: `Subcooling ${differenceWords(subcooling)}: the liquid line is full` });
  }
  if (superheat !== undefined) {
    const dry = step(superheat, model.superheatK + 9, 4, 2);
    if (dry > 0.4)
      out.push({ cause: 'low_charge', weight: dry, text: `Superheat ${differenceWords(superheat)}: the evaporator is starved` });
    else out.push({ cause: 'low_charge', weight: -0.7, text: `Superheat ${differenceWords(superheat)} is usual` });
  }
  const colder = usualEvaporatingK - seen.evaporatingDewK;
  if (reading.suctionPaGauge !== undefined && colder > 4)
    out.push({
      cause: 'low_charge',
      weight: step(colder, 6, 4, 1.6),
      text: `Suction ${differenceWords(colder)} lower than this box calls for`,
    });
  return out;
};
