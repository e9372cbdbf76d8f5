import { balance } from '../../../lib/core/condenser/machine/balance';
import { gaugeSdPa } from '../../../lib/core/condenser/readings/instruments';
import { conductanceFromRise, modelOf, type UnitModel } from '../../../lib/core/condenser/machine/model';
import { profileOf } from '../../../lib/core/condenser/machine/profiles';
import type { CondenserUnit, Gauge, GaugeGrade } from '../../../lib/core/condenser';
import type { RandomStream } from '../../../lib/core/numerics/random';
import { fahrenheitToKelvin, kelvinToFahrenheit, pascalToPsi, psiToPascal } from '../../../lib/core/measures';
import type { Truth } from './truth';

/** The unit as it really is, to be put through the forward equations. */
export function trueModel(unit: CondenserUnit, truth: Truth): UnitModel | null {
  const profile = {
    ...profileOf(unit.kind, unit.application),
    cleanRiseK: truth.cleanRiseK,
    superheatK: truth.superheatK,
    subcoolingK: truth.subcoolingK,
  };
  return modelOf(unit, { profile });
}

export type Van = { gauge: Gauge; /** How far this gauge is off everywhere, in its own sigmas. */ bias: number };

export const vanOf = (grade: string, spanPa: number, random: RandomStream): Van => ({
  gauge: { grade: grade as GaugeGrade, spanPa },
  bias: random.normal(0, 0.5),
});

type Measured = {
  headPaGauge?: number;
  condensingClampK?: number;
  airInK: number;
  suctionPaGauge?: number;
  liquidLineK?: number;
  suctionLineK?: number;
  dischargeLineK?: number;
  boxK: number;
  steadyMinutes: number;
};
export type Taken = { values: Measured; entered: Record<string, { value: number; unit: string }>; headTrulyPaGauge: number };

const TENTH_F = (T: number) => Math.round(kelvinToFahrenheit(T) * 10) / 10;
const WHOLE_PSI = (p: number) => Math.round(pascalToPsi(p));

/** A technician's reading of a unit in this state and air: forward equations, instruments' errors, rounded as typed. */
export function takeReading(
  unit: CondenserUnit,
  model: UnitModel,
  lnKFall: number,
  at: { airK: number; boxK: number },
  van: Van,
  random: RandomStream,
): Taken | null {
  const clean = conductanceFromRise(model, model.profile.cleanRiseK);
  const state = balance(model, clean * Math.exp(-lnKFall), at);
  if (state.status !== 'ok') return null;
  const entered: Taken['entered'] = {};
  const f = (field: string, T: number, sd: number) => {
    const value = TENTH_F(random.normal(T, sd));
    entered[field] = { value, unit: '°F' };
    return fahrenheitToKelvin(value);
  };
  const psi = (field: string, pa: number) => {
    const sd = gaugeSdPa(van.gauge, pa);
    const value = WHOLE_PSI(pa + sd * (van.bias + random.normal(0, 0.6)));
    entered[field] = { value, unit: 'psig' };
    return psiToPascal(value);
  };
  const wobble = random.normal(0, 0.3);
  const values: Measured = { airInK: f('airInK', at.airK, 0.5), boxK: f('boxK', at.boxK, 0.4), steadyMinutes: random.whole(12, 30) };
  if (unit.circuitAccess === 'ports') {
    values.headPaGauge = psi('headPaGauge', state.headPaGauge * (1 + wobble / 60));
    if (random.chance(0.6)) values.suctionPaGauge = psi('suctionPaGauge', state.suctionPaGauge);
    if (values.suctionPaGauge !== undefined && random.chance(0.7)) values.suctionLineK = f('suctionLineK', state.suctionLineK, 0.6);
  } else values.condensingClampK = f('condensingClampK', state.condensingK - 1 + wobble, 1.1);
  if (random.chance(0.5)) values.liquidLineK = f('liquidLineK', state.liquidLineK, 0.6);
  if (random.chance(0.35)) values.dischargeLineK = f('dischargeLineK', state.dischargeLineK - 1.5, 1.2);
  return { values, entered, headTrulyPaGauge: state.headPaGauge };
}
