import { dewCycle, modelOf } from '@/lib/core/condenser/machine/model';
import type { CondenserUnit } from '@/lib/core/condenser';
import type { Comparison } from './comparison';
import { worstOf } from './condenser-support';
import { percentPerK, publishedMaps, SLOPE_AT, type PublishedMap } from './published-maps';

/** The unit of the estimate that a published compressor would sit in. R-404A came after R-502, whose maps are at hand. */
function unitFor(map: PublishedMap): CondenserUnit | null {
  const low = map.application === 'low';
  const refrigerant = map.refrigerant === 'R502' ? 'R404A' : map.refrigerant;
  if (refrigerant === 'rack') return null;
  return {
    refrigerant,
    kind: low ? 'walk_in_freezer' : 'walk_in_cooler',
    application: low ? 'low' : 'medium',
    expansion: 'valve', circuitAccess: 'ports', condenserKind: 'fin_and_tube', placement: 'line',
    boxSetPointK: low ? 252.6 : 276.5,
    altitudeM: 0,
  }; // prettier-ignore
}

function misses(what: 'capacity' | 'power'): number[] {
  return publishedMaps().flatMap((map) => {
    const unit = map.what === what ? unitFor(map) : null;
    const model = unit && modelOf(unit);
    if (!model) return [];
    const suctionC = SLOPE_AT.suction[map.application === 'low' ? 'low' : 'medium'];
    const own = percentPerK((dischargeC) => {
      const cycle = dewCycle(model, suctionC + 273.15, dischargeC + 273.15);
      return what === 'power' ? cycle.power : cycle.cooling;
    });
    return [own - percentPerK((dischargeC) => map.at(suctionC, dischargeC))];
  });
}

const SOURCE =
  'Seven small semi-hermetic compressors, maker’s data as fitted in EnergyPlus datasets/RefrigerationCompressorCurves.idf: R-134a, ' +
  'R-12, R-502 (against R-404A), R-22; −7 °C and −29 °C suction';

export function comparisons(): Comparison[] {
  return [
    {
      id: 'condenser.compressor.power-per-kelvin',
      source: SOURCE,
      quantity: 'Power per kelvin of condensing, 38 to 48 °C',
      unit: '%/K',
      tolerance: 0.5,
      expectedSamples: 7,
      ...worstOf(misses('power')),
    },
    {
      id: 'condenser.compressor.capacity-per-kelvin',
      source: SOURCE,
      quantity: 'Capacity per kelvin of condensing, 38 to 48 °C',
      unit: '%/K',
      tolerance: 1,
      expectedSamples: 7,
      ...worstOf(misses('capacity')),
    },
  ];
}
