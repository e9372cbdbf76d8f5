/**
 * A standing test with dry nitrogen: does the pressure fall more than the temperature explains?
 *
 * Nitrogen at constant volume, so at constant density: p = ρRT(1 + B(T)ρ) in absolute units. At 35 bar it follows its
 * temperature by some 8 % more than the ideal gas does: a circuit that cools by 6 K would seem to lose 0.2 % more.
 */

export type PressureReading = {
  /** Minutes since the test began. */
  minutes: number;
  /** Pa above the local atmosphere. */
  paGauge: number;
  /** Of the tube, K. */
  temperatureK: number;
};

export type PressureTestInput = {
  start: PressureReading;
  end: PressureReading;
  atmospherePa: number;
  /** What the same gauge may differ by on reading twice, standard deviation in Pa: half its smallest division. */
  gaugeSdPa: number;
  /** The same for the thermometer, K. */
  temperatureSdK: number;
  /** Highest test pressure on the plate of whatever is connected, Pa gauge; null where it can't be read. */
  platePaGauge: number | null;
};

export type PressureVerdict = 'holds' | 'leaks' | 'rose' | 'too_short' | 'above_plate';

export type PressureJudgement = {
  verdict: PressureVerdict;
  /** What the gauge should show at the end if nothing left, Pa gauge. */
  expectedPaGauge: number;
  /** Fall beyond what the temperature explains, Pa, with its standard deviation and 80 % band. */
  dropPa: number;
  sdPa: number;
  band: readonly [number, number];
  /** Pa an hour of leak that this test would have found nine times in ten. */
  smallestSeenPaPerHour: number;
};

/** Common practice: shorter than this, only a gross leak shows. */
const LEAST_MINUTES = 15;
/** One false alarm in a hundred. */
const ALARM = 2.326;
/** Found nine times in ten. */
const FOUND = 1.2816;
const GAS_J_MOL_K = 8.314462618;
/** How far the virial's own change with temperature may be off, as a share: judgement. */
const VIRIAL_SHARE = 0.15;

/**
 * Second virial coefficient of nitrogen, m³/mol: a₁ + a₂x + a₃x² with x = 298.15 K/T − 1, in the coefficients of the CRC
 * Handbook of Chemistry and Physics, "Virial coefficients of selected gases" (from memory).
 */
function virial(T: number): number {
  const x = 298.15 / T - 1;
  return (-4 - 56 * x - 12 * x * x) * 1e-6;
}

/** Density (mol/m³) at an absolute pressure (Pa) and a temperature (K). */
function densityOf(p: number, T: number): number {
  const ideal = p / (GAS_J_MOL_K * T);
  return (2 * ideal) / (1 + Math.sqrt(1 + 4 * virial(T) * ideal));
}

/**
 * Judges a standing pressure test.
 * @returns the drop with its band; `too_short` and `above_plate` come before any judgement of it
 * @throws RangeError on temperatures or pressures that are not positive, or an end before the start
 */
export function judgePressureTest(test: PressureTestInput): PressureJudgement {
  const { start, end, atmospherePa, gaugeSdPa, temperatureSdK } = test;
  const p1 = start.paGauge + atmospherePa;
  const p2 = end.paGauge + atmospherePa;
  if (!(p1 > 0 && p2 > 0 && start.temperatureK > 0 && end.temperatureK > 0))
    throw new RangeError('A pressure test needs absolute values above zero.');
  const minutes = end.minutes - start.minutes;
  if (!(minutes > 0)) throw new RangeError('A pressure test ends after it began.');
  const ratio = end.temperatureK / start.temperatureK;
  const density = densityOf(p1, start.temperatureK);
  const expected = density * GAS_J_MOL_K * end.temperatureK * (1 + virial(end.temperatureK) * density);
  const dropPa = expected - p2;
  const byTemperature = (expected / end.temperatureK) * temperatureSdK * Math.hypot(1, ratio);
  const byGas = expected * VIRIAL_SHARE * density * Math.abs(virial(end.temperatureK) - virial(start.temperatureK));
  const sdPa = Math.hypot(gaugeSdPa * Math.hypot(1, ratio), byTemperature, byGas);
  return {
    verdict: verdictOf(test, dropPa / sdPa, minutes),
    expectedPaGauge: expected - atmospherePa,
    dropPa,
    sdPa,
    band: [dropPa - FOUND * sdPa, dropPa + FOUND * sdPa],
    smallestSeenPaPerHour: ((ALARM + FOUND) * sdPa * 60) / minutes,
  };
}

function verdictOf({ start, platePaGauge }: PressureTestInput, z: number, minutes: number): PressureVerdict {
  if (platePaGauge !== null && start.paGauge > platePaGauge) return 'above_plate';
  // A leak that shows is a leak, however short the test; only holding takes time.
  if (z > ALARM) return 'leaks';
  if (z < -ALARM) return 'rose';
  return minutes < LEAST_MINUTES ? 'too_short' : 'holds';
}
