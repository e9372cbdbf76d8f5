import type { ChangedPart, ChargeConditions } from './charge';
import { TUBE_LINE_LABEL, type TubeLine, type WorkOf } from './work';

/** Spread of a drier's or condenser's inner volume as makers print it: judgement. */
const VOLUME_SD_SHARE = 0.15;
/** Share of a running condenser that stands full of liquid: judgement, a wide band. */
const CONDENSER_LIQUID = { liquidShare: 0.25, sd: 0.12 } as const;
const HOLDS: Record<TubeLine, 'liquid' | 'suction_vapour' | 'hot_vapour'> = {
  liquid: 'liquid',
  suction: 'suction_vapour',
  discharge: 'hot_vapour',
};

/** What was changed at the drier step, as parts put in and taken out. */
export function changedParts(work: WorkOf<'drier'> | null): ChangedPart[] {
  if (!work) return [];
  const parts: ChangedPart[] = [];
  for (const { line, before, now, lengthM } of work.tubes) {
    const tube = { kind: 'tube', lengthM, holds: HOLDS[line] } as const;
    if (before) parts.push({ ...tube, what: `${TUBE_LINE_LABEL[line]} before, ${before} in`, size: before, sign: -1 });
    if (now) parts.push({ ...tube, what: `${TUBE_LINE_LABEL[line]} now, ${now} in`, size: now, sign: 1 });
  }
  const volume = (what: string, volumeM3: number | null, sign: 1 | -1, holds: ChangedPart['holds']) => {
    if (volumeM3) parts.push({ what, kind: 'volume', volumeM3, sdShare: VOLUME_SD_SHARE, holds, sign });
  };
  volume('Drier before', work.drierBeforeM3, -1, 'liquid');
  volume('Drier now', work.drierNowM3, 1, 'liquid');
  volume('Condenser before', work.condenserBeforeM3, -1, CONDENSER_LIQUID);
  volume('Condenser now', work.condenserNowM3, 1, CONDENSER_LIQUID);
  return parts;
}

/**
 * How the circuit will run, for the densities: condensing 10 K over a hot day's air, liquid 4 K below that, evaporating
 * 8 K below the box, suction line 10 K warmer. Common practice for cabinets of this size; the spread covers the rest.
 */
export function usualConditions(
  unit: { refrigerant: string; boxSetK: number | null; application: 'medium' | 'low' },
  airK: number,
): ChargeConditions {
  const boxK = unit.boxSetK ?? (unit.application === 'low' ? 255.15 : 276.15);
  const condensingK = airK + 10;
  return {
    refrigerant: unit.refrigerant,
    liquidK: condensingK - 4,
    condensingK,
    evaporatingK: boxK - 8,
    suctionK: boxK + 2,
    temperatureSdK: 6,
  };
}
