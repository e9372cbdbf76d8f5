import { isFailure, liquid, saturatedVapour, vapour, type PropertyFailure, type Result } from '../refrigerants/api';
import { dewPressure, bubblePressure } from '../refrigerants/api';
import { boreArea, type TubeSize } from './tubing';

/**
 * Charge by weight: what the plate says, plus what the changed parts hold, minus what they held before.
 *
 * mass = inner volume × density; liquid where liquid stands, vapour where vapour stands. Densities from the property
 * room. What is left out: refrigerant dissolved in more oil, and liquid backing up in a condenser of another make.
 */

export type Contents = 'liquid' | 'suction_vapour' | 'hot_vapour' | { liquidShare: number; sd: number };

export type ChangedPart =
  | { what: string; kind: 'tube'; size: TubeSize; lengthM: number; holds: Contents; sign: 1 | -1 }
  | { what: string; kind: 'volume'; volumeM3: number; sdShare: number; holds: Contents; sign: 1 | -1 };

export type ChargeConditions = {
  refrigerant: string;
  /** Liquid line while running, K. */
  liquidK: number;
  /** Dew point in the condenser, K. */
  condensingK: number;
  /** Dew point in the evaporator, K, and the suction line's own temperature, K. */
  evaporatingK: number;
  suctionK: number;
  /** Spread of those temperatures over how the unit runs, K: they set the densities. */
  temperatureSdK: number;
};

export type ChargeLine = { what: string; volumeM3: number; densityKgM3: number; kg: number; sdKg: number };

export type ChargeByWeight = {
  lines: ChargeLine[];
  /** Plate and lines, kg; standard deviation and 80 % band. */
  kg: number;
  sdKg: number;
  band: readonly [number, number];
};

/** A plate is printed to the next tenth of an ounce or five grams: rounding, as a standard deviation in kg. */
const PLATE_SD_KG = 0.0015;
const Z80 = 1.2816;

/**
 * @param plateKg charge on the plate, kg
 * @param parts what was added (sign 1) and taken out (−1)
 * @returns the sum with its working, or why a density can't be given
 */
export function chargeByWeight(plateKg: number, parts: readonly ChangedPart[], at: ChargeConditions): Result<ChargeByWeight> {
  if (!(plateKg > 0)) throw new RangeError('The plate’s charge is above zero.');
  const lines: ChargeLine[] = [];
  for (const part of parts) {
    const line = lineOf(part, at);
    if (isFailure(line)) return line;
    lines.push(line);
  }
  const kg = plateKg + lines.reduce((sum, l) => sum + l.kg, 0);
  const sdKg = Math.hypot(PLATE_SD_KG, ...lines.map((l) => l.sdKg));
  return { lines, kg, sdKg, band: [kg - Z80 * sdKg, kg + Z80 * sdKg] };
}

function lineOf(part: ChangedPart, at: ChargeConditions): ChargeLine | PropertyFailure {
  const density = densityOf(part.holds, at);
  if (isFailure(density)) return density;
  const { volumeM3, sdShare } = volumeOf(part);
  const kg = part.sign * volumeM3 * density.kgM3;
  return { what: part.what, volumeM3, densityKgM3: density.kgM3, kg, sdKg: Math.abs(kg) * Math.hypot(sdShare, density.sd / density.kgM3) };
}

function volumeOf(part: ChangedPart): { volumeM3: number; sdShare: number } {
  if (part.kind === 'volume') return part;
  const { areaM2, sdShare } = boreArea(part.size);
  return { volumeM3: areaM2 * part.lengthM, sdShare };
}

type Density = { kgM3: number; sd: number };

function densityOf(holds: Contents, at: ChargeConditions): Density | PropertyFailure {
  if (typeof holds === 'object') {
    const [wet, dry] = [liquidDensity(at), hotDensity(at)];
    if (isFailure(wet)) return wet;
    if (isFailure(dry)) return dry;
    const { liquidShare: x, sd } = holds;
    return { kgM3: x * wet.kgM3 + (1 - x) * dry.kgM3, sd: Math.hypot(sd * (wet.kgM3 - dry.kgM3), x * wet.sd, (1 - x) * dry.sd) };
  }
  if (holds === 'liquid') return liquidDensity(at);
  return holds === 'hot_vapour' ? hotDensity(at) : suctionDensity(at);
}

/** A density and what the spread of temperatures makes of it. */
function spread(of: (shift: number) => Result<number>, sdK: number): Density | PropertyFailure {
  const [mid, up] = [of(0), of(sdK)];
  if (isFailure(mid)) return mid;
  if (isFailure(up)) return up;
  return { kgM3: mid, sd: Math.abs(up - mid) };
}

const liquidDensity = ({ refrigerant, liquidK, condensingK, temperatureSdK }: ChargeConditions) =>
  spread((shift) => {
    const p = bubblePressure(refrigerant, Math.max(condensingK, liquidK) + shift);
    if (isFailure(p)) return p;
    const state = liquid(refrigerant, { T: liquidK + shift, p });
    return isFailure(state) ? state : state.rho;
  }, temperatureSdK);

const hotDensity = ({ refrigerant, condensingK, temperatureSdK }: ChargeConditions) =>
  spread((shift) => {
    const state = saturatedVapour(refrigerant, condensingK + shift);
    return isFailure(state) ? state : state.rho;
  }, temperatureSdK);

const suctionDensity = ({ refrigerant, evaporatingK, suctionK, temperatureSdK }: ChargeConditions) =>
  spread((shift) => {
    const p = dewPressure(refrigerant, evaporatingK + shift);
    if (isFailure(p)) return p;
    const state = vapour(refrigerant, { T: Math.max(suctionK, evaporatingK) + shift, p });
    return isFailure(state) ? state : state.rho;
  }, temperatureSdK);
