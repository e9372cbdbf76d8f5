import { temperatureWords } from './both-units';
import type { Profile } from '../machine/profiles';
import type { CleanBaseline, CondenserUnit, Conditions, Reading } from '../types';

/** What was taken for granted, in the order in which it matters. */
// eslint-disable-next-line complexity -- a table: a sentence a line, each with when it holds, in the order in which they matter
export function assumptionsOf(
  unit: CondenserUnit,
  reading: Reading,
  conditions: Conditions,
  profile: Profile,
  baseline: CleanBaseline,
): string[] {
  const said: (string | false)[] = [
    baseline.readings === 0 && 'Clean rise is usual for this kind of equipment; no reading after a cleaning yet.',
    reading.airInK === undefined && 'Coil air taken as room air and 2 °F (1 K): measure it at the coil face for a narrower band.',
    reading.headPaGauge === undefined && 'Condensing from a clamp on the bend, which reads about 2 °F (1 K) low.',
    reading.headPaGauge !== undefined &&
      !reading.gauge &&
      'Gauge not named: an error of 1 % of 500 psi (800 psi for high-pressure refrigerants) taken.',
    reading.suctionPaGauge === undefined && 'Suction not measured: evaporator as usual for this kind.',
    reading.boxK === undefined && 'Box taken at its set point.',
    reading.steadyMinutes === undefined && 'Time of steady running not noted: the band is wider for it.',
    unit.kind === 'ice_machine' &&
      'Ice machine taken in the middle of a freeze, water at 32 °F (0 °C): read it five minutes or more after a harvest.',
    unit.hasHeadControl === undefined && 'Not known whether a head control holds the head up in cold air.',
    unit.circuitAccess === 'sealed' &&
      reading.headPaGauge !== undefined &&
      'Sealed unit read with gauges: each connection lets charge out; a clamp on the bend will do next time.',
    `Hot day: ${temperatureWords(conditions.hotDayAirK)} at the coil, box at ${temperatureWords(conditions.boxK)}.`,
    !conditions.airProfile && `Usual day taken 11 °F (6 K) cooler than the hot one.`,
    `Money: ${conditions.energyPricePerKwh} ${conditions.currency}/kWh, clean run time ${conditions.cleanRunHoursPerDay ?? profile.cleanRunHoursPerDay} h a day, fouled longer for the same duty.`,
    unit.nominalCoolingW === undefined &&
      !unit.compressorMap &&
      `Size guessed by kind (${Math.round(profile.nominalCoolingW)} W of cooling): enter the plate for a narrower energy figure.`,
    'What grease does to a condenser is extrapolated from tests with dust and with reduced airflow.',
  ];
  return said.filter((s): s is string => typeof s === 'string');
}
