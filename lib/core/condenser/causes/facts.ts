import type { Belief } from '../inference/infer';
import { APART_K, besideOf } from '../readings/doubts';
import { differenceWords } from '../words/both-units';
import type { CauseId, Measured, Reading } from '../types';

/** One thing seen, in words, and which causes it speaks for and against. The weighing itself is the inference's. */
export type Fact = { text: string; for: readonly CauseId[]; against: readonly CauseId[] };

const HIGH_HEAD: readonly CauseId[] = ['coil_fouling', 'condenser_fan', 'blocked_air', 'non_condensables', 'overcharge', 'recirculation'];

export function factsOf(belief: Belief, measured: Measured | null): Fact[] {
  return [
    ...high(belief),
    ...bend(belief, measured),
    ...again(belief),
    ...liquid(belief),
    ...lowSide(belief),
    ...around(belief),
    ...seen(belief.scene.reading),
    ...past(belief),
  ];
}

function high({ scene, measured }: Belief): Fact[] {
  const z = (scene.lnClean - measured.lnK) / Math.hypot(measured.sd, scene.lnCleanSd);
  if (z > 1) return [{ text: 'Condensing runs higher over the air than clean', for: HIGH_HEAD, against: ['nothing', 'low_charge'] }];
  if (z < -1.3)
    return [
      {
        text: 'Head lower than even a clean coil gives',
        for: ['low_charge', 'evaporator_coil', 'evaporator_fan', 'weak_compressor', 'reading_fault'],
        against: HIGH_HEAD,
      },
    ];
  return [{ text: 'Condensing over the air is what a clean coil gives', for: ['nothing'], against: HIGH_HEAD }];
}

function bend({ scene }: Belief, measured: Measured | null): Fact[] {
  const { headPaGauge, condensingClampK } = scene.reading;
  if (headPaGauge === undefined || condensingClampK === undefined || !measured) return [];
  const over = measured.condensingK.value - condensingClampK;
  if (over > 4)
    return [
      {
        text: `Gauge says ${differenceWords(over)} more than the bend: air adds its own pressure, or the gauge is off`,
        for: ['non_condensables', 'reading_fault'],
        against: ['coil_fouling', 'nothing'],
      },
    ];
  if (over < -3)
    return [
      {
        text: `Bend reads ${differenceWords(over)} hotter than the gauge allows: one of the two is wrong`,
        for: ['reading_fault'],
        against: [],
      },
    ];
  return [{ text: 'Gauge and bend agree', for: [], against: ['non_condensables', 'reading_fault'] }];
}

function again({ scene: { unit, reading } }: Belief): Fact[] {
  const { gauges, thermometers } = besideOf(unit, reading);
  return [gauges, thermometers]
    .filter(Number.isFinite)
    .map((K) =>
      K > APART_K
        ? { text: `Another instrument reads ${differenceWords(K)} off the first`, for: ['reading_fault'], against: [] }
        : { text: 'Another instrument agrees with the first', for: [], against: ['reading_fault'] },
    );
}

function liquid({ scene }: Belief): Fact[] {
  const { reading, machine, atmospherePa } = scene;
  if (reading.liquidLineK === undefined || reading.headPaGauge === undefined) return [];
  const dew = machine.fluid.dewT(reading.headPaGauge + atmospherePa);
  const sub = dew - machine.fluid.glide(dew) - reading.liquidLineK;
  const text = `Subcooling ${sub < 0.5 ? 'none' : differenceWords(sub)}`;
  if (sub > machine.profile.subcoolingK + 4)
    return [
      {
        text: `${text}: liquid is backed up in the coil, or air reads as subcooling`,
        for: ['overcharge', 'non_condensables'],
        against: ['low_charge', 'coil_fouling'],
      },
    ];
  if (sub < 1.5) return [{ text: `${text}: no full liquid line`, for: ['low_charge'], against: ['overcharge', 'non_condensables'] }];
  return [{ text: `${text} is usual`, for: [], against: ['overcharge', 'non_condensables', 'low_charge'] }];
}

function lowSide({ scene }: Belief): Fact[] {
  const { reading, machine, atmospherePa } = scene;
  if (reading.suctionPaGauge === undefined) return [];
  const te = machine.fluid.dewT(reading.suctionPaGauge + atmospherePa);
  const out: Fact[] = [];
  const box = reading.boxK ?? scene.unit.boxSetPointK;
  const colder = box - te - machine.profile.evaporatorDifferenceK;
  if (colder > 3.5)
    out.push({
      text: `Suction ${differenceWords(colder)} lower than this box calls for`,
      for: ['evaporator_coil', 'evaporator_fan', 'low_charge'],
      against: ['high_load', 'weak_compressor'],
    });
  else if (colder < -3)
    out.push({
      text: `Suction ${differenceWords(colder)} higher than this box calls for`,
      for: ['weak_compressor', 'high_load'],
      against: ['low_charge', 'evaporator_coil', 'evaporator_fan'],
    });
  if (reading.suctionLineK !== undefined) {
    const superheat = reading.suctionLineK - te;
    if (superheat > machine.profile.superheatK + 7)
      out.push({
        text: `Superheat ${differenceWords(superheat)}: the evaporator is starved`,
        for: ['low_charge'],
        against: ['evaporator_coil', 'evaporator_fan', 'overcharge'],
      });
    else if (superheat < 4)
      out.push({
        text: `Superheat ${superheat < 0.5 ? 'none' : differenceWords(superheat)}: liquid is not boiled off`,
        for: ['evaporator_coil', 'evaporator_fan', 'overcharge'],
        against: ['low_charge'],
      });
    else out.push({ text: `Superheat ${differenceWords(superheat)} is usual`, for: [], against: ['low_charge'] });
  }
  return out;
}

function around({ scene }: Belief): Fact[] {
  const { reading, unit, machine, atmospherePa } = scene;
  const out: Fact[] = [];
  if (reading.boxK !== undefined && unit.kind !== 'ice_machine') {
    const warm = reading.boxK - unit.boxSetPointK;
    if (warm > 2.5)
      out.push({
        text: `Box is ${differenceWords(warm)} over its set point`,
        for: ['high_load', 'low_charge', 'evaporator_coil', 'evaporator_fan', 'weak_compressor'],
        against: ['nothing'],
      });
    else out.push({ text: 'Box is at its set point', for: ['nothing'], against: ['high_load'] });
  }
  if (reading.airInK !== undefined && reading.roomAirK !== undefined) {
    const warmer = reading.airInK - reading.roomAirK;
    if (warmer > 3.5)
      out.push({ text: `Air at the coil is ${differenceWords(warmer)} warmer than the room`, for: ['recirculation'], against: [] });
    else out.push({ text: 'Air at the coil is as cool as the room', for: [], against: ['recirculation'] });
  }
  if (reading.offCyclePaGauge !== undefined && reading.offCycleAirK !== undefined) {
    const { fluid } = machine;
    const over = fluid.dewT(reading.offCyclePaGauge + atmospherePa) - fluid.glide(reading.offCycleAirK) - reading.offCycleAirK;
    if (over > 2)
      out.push({
        text: `Standing pressure reads ${differenceWords(over)} over saturation at the air`,
        for: ['non_condensables'],
        against: ['coil_fouling'],
      });
    else if (over > -2) out.push({ text: 'Standing pressure agrees with saturation at the air', for: [], against: ['non_condensables'] });
  }
  return out;
}

function seen(reading: Reading): Fact[] {
  const out: Fact[] = [];
  const { coilGrade, fanGrade, airPathGrade, evaporatorFanGrade, evaporatorCoilGrade } = reading;
  if (coilGrade === 'bare' || coilGrade === 'filmed') out.push({ text: `Coil found ${coilGrade}`, for: [], against: ['coil_fouling'] });
  else if (coilGrade) out.push({ text: `Coil found ${coilGrade}`, for: ['coil_fouling'], against: ['nothing'] });
  if (fanGrade === 'sound') out.push({ text: 'Condenser fan found sound', for: [], against: ['condenser_fan'] });
  else if (fanGrade) out.push({ text: `Condenser fan found ${fanGrade}`, for: ['condenser_fan'], against: [] });
  if (airPathGrade === 'open') out.push({ text: 'Air path of the condenser found open', for: [], against: ['blocked_air'] });
  else if (airPathGrade) out.push({ text: `Air path of the condenser found ${airPathGrade}`, for: ['blocked_air'], against: [] });
  if (evaporatorFanGrade === 'sound') out.push({ text: 'Evaporator fan found sound', for: [], against: ['evaporator_fan'] });
  else if (evaporatorFanGrade) out.push({ text: `Evaporator fan found ${evaporatorFanGrade}`, for: ['evaporator_fan'], against: [] });
  if (evaporatorCoilGrade) {
    const bad = evaporatorCoilGrade === 'clogged' || evaporatorCoilGrade === 'choked';
    out.push({
      text: `Evaporator coil found ${evaporatorCoilGrade}`,
      for: bad ? ['evaporator_coil'] : [],
      against: bad ? [] : ['evaporator_coil'],
    });
  }
  if (reading.steadyMinutes === undefined)
    out.push({ text: 'How long it had been running was not noted', for: ['not_steady'], against: [] });
  return out;
}

const DAY_MS = 86_400_000;

function past({ scene, measured }: Belief): Fact[] {
  const last = scene.history.filter((h) => h.at < scene.reading.at).at(-1);
  if (!last) return [];
  const lost = -Math.expm1(measured.lnK - scene.lnClean);
  const days = Math.max(1, Math.round((scene.reading.at - last.at) / DAY_MS));
  const fast = (lost - last.lost) / days;
  const z = (lost - last.lost) / Math.hypot(measured.sd, last.sd);
  if (z > 2 && fast > 0.03)
    return [
      {
        text: `Jumped by ${Math.round((lost - last.lost) * 100)} % in ${days} days: a jump is not a trend`,
        for: ['condenser_fan', 'blocked_air'],
        against: ['coil_fouling'],
      },
    ];
  if (last.lost > 0.08 && z > -2) return [{ text: 'The loss came on over weeks', for: ['coil_fouling'], against: ['condenser_fan'] }];
  return [];
}
