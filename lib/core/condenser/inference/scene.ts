import { atmosphereAt } from '../../measures';
import {
  AIR_PLACEMENT_SD_K,
  BEND_SHORTFALL_K,
  BEND_SHORTFALL_SD_K,
  CONTACT_SD_K,
  headSdPa,
  suctionSdPa,
  THERMOMETER_SD_K,
  withThermometer,
} from '../readings/instruments';
import { scatterSd } from '../readings/steadiness';
import { profileOf } from '../machine/profiles';
import { OWN_PARTS, type CleanBaseline, type CondenserUnit, type PastLoss, type Reading } from '../types';
import { machineOf, type Machine } from './equations';
import { BOX, LEFT_WHEN_LEARNT, MODEL_ERROR, ROOM_TO_COIL, SOUND } from './priors';
import type { Channel, Seen } from './solve';
import * as S from './state';

/** One reading as the inference takes it: a machine, its usual spread, and what was seen with what error. */
export type Scene = {
  unit: CondenserUnit;
  reading: Reading;
  machine: Machine;
  baseline: CleanBaseline;
  history: readonly PastLoss[];
  /** ln(K_clean/K_reference) believed, and its sd. */
  lnClean: number;
  lnCleanSd: number;
  /** Prior of a sound machine. */
  sound: S.Prior;
  /** Balances with their model error, then the instruments. */
  seen: readonly Seen[];
  /** Which of `seen` are instruments. */
  instruments: readonly Channel[];
  start: Float64Array;
  boxMeasured: boolean;
  /** The baseline was learnt by the means of this reading. */
  learnt: boolean;
  atmospherePa: number;
};

export type SceneOptions = { history?: readonly PastLoss[]; learnt: boolean; own?: Machine };

/**
 * A clamp on the hot discharge line is short of it by a part of how much hotter than the air it is, as contact is never whole (judgement);
 * besides, how far along the line it sits, K.
 */
const DISCHARGE_SHORT = 0.06;
const DISCHARGE_SHORT_SD = 0.025;
const DISCHARGE_PLACEMENT_SD_K = 2;
/** The liquid line gives off a little heat before the clamp: K, and behind a receiver as a part of the rise (judgement). */
const LIQUID_LINE_SD_K = 0.5;
const LIQUID_LINE_SD_PART = 0.08;

/**
 * What the balances settle is not believed in before them: an evaporator that nobody reads may be starved as well as fed. With the suction line
 * read it shows, and what is usual steadies the slopes (of 0.35, 0.7 and 1.2 by causes as named on makes E, K and L of the outside plant).
 */
const UNREAD_DRY = 0.7;

export const thermometerOf = (reading: Reading) => reading.thermometerSdK ?? THERMOMETER_SD_K;

/** One sd of air at the coil as this many thermometers read it at one place, K. */
export const airSdOf = (reading: Reading, thermometers = 1) =>
  Math.hypot(thermometerOf(reading) / Math.sqrt(thermometers), AIR_PLACEMENT_SD_K);

/** Null where the refrigerant has no numbers. */
export function sceneOf(unit: CondenserUnit, entered: Reading, baseline: CleanBaseline, options: SceneOptions): Scene | null {
  const reading = withThermometer(entered, unit.thermometerClass);
  const machine = options.own ?? machineOf(unit, profileOf(unit.kind, unit.application));
  if (!machine) return null;
  const atmospherePa = atmosphereAt(unit.altitudeM);
  const thermometer = thermometerOf(reading);
  const onPipe = Math.hypot(thermometer, CONTACT_SD_K);
  const left = options.learnt ? LEFT_WHEN_LEARNT : 1;
  const sound = soundPrior(machine, unit, reading, left);
  asItsOwn(sound, reading, baseline, options.learnt);
  const rise = condensingOf(machine, reading, atmospherePa) - sound.mean[S.AIR]!;
  const unsteady = scatterSd(reading) / Math.max(4, Number.isFinite(rise) ? rise : 12);
  const seen: Seen[] = [
    { channel: 'condenser', value: 0, sd: Math.hypot(MODEL_ERROR.condenser * left, unsteady) },
    { channel: 'evaporator', value: 0, sd: MODEL_ERROR.evaporator },
    { channel: 'expansion', value: 0, sd: machine.capillary ? MODEL_ERROR.capillary : MODEL_ERROR.valveK },
    { channel: 'charge', value: 0, sd: MODEL_ERROR.charge },
  ];
  const instruments: Channel[] = [];
  const add = (
    channel: Channel,
    read: number | undefined,
    sd: number | ((read: number) => number),
    more: number | ((read: number) => number),
  ) => {
    if (read === undefined) return;
    const at = (of: typeof sd) => (typeof of === 'number' ? of : of(read));
    seen.push({ channel, value: read + at(more), sd: at(sd) });
    instruments.push(channel);
  };
  add('headPa', reading.headPaGauge, (pa) => headSdPa(reading, unit.refrigerant, pa), atmospherePa);
  add('suctionPa', reading.suctionPaGauge, (pa) => suctionSdPa(reading, unit.refrigerant, pa), atmospherePa);
  add('bendK', reading.condensingClampK, Math.hypot(onPipe, BEND_SHORTFALL_SD_K * left), BEND_SHORTFALL_K);
  const inLine = machine.capillary || !Number.isFinite(rise) ? 0 : LIQUID_LINE_SD_PART * Math.max(0, rise);
  add('liquidK', reading.liquidLineK, Math.hypot(onPipe, LIQUID_LINE_SD_K, inLine), 0);
  add('suctionK', reading.suctionLineK, onPipe, 0);
  const hotter = (T: number) => Math.max(0, T - sound.mean[S.AIR]!);
  const onHot = (T: number) => Math.hypot(onPipe, DISCHARGE_PLACEMENT_SD_K, DISCHARGE_SHORT_SD * hotter(T));
  add('dischargeK', reading.dischargeLineK, onHot, (T) => DISCHARGE_SHORT * hotter(T));
  add('headPa', reading.headAgainPaGauge, (pa) => headSdPa({}, unit.refrigerant, pa), atmospherePa);
  return {
    unit,
    reading,
    machine,
    baseline,
    history: options.history ?? [],
    lnClean: Math.log(machine.profile.cleanRiseK / baseline.cleanRiseK),
    lnCleanSd: baseline.sdK / baseline.cleanRiseK,
    sound,
    seen,
    instruments,
    start: startAt(machine, sound, reading, atmospherePa),
    boxMeasured: reading.boxK !== undefined,
    learnt: options.learnt,
    atmospherePa,
  };
}

/** Mean condensing temperature as the reading shows it; NaN without head and clamp. */
export function condensingOf(machine: Machine, reading: Reading, atmospherePa: number): number {
  if (reading.headPaGauge !== undefined) {
    const dew = machine.fluid.dewT(reading.headPaGauge + atmospherePa);
    return dew - machine.fluid.glide(dew) / 2;
  }
  return reading.condensingClampK === undefined ? NaN : reading.condensingClampK + BEND_SHORTFALL_K;
}

function soundPrior(machine: Machine, unit: CondenserUnit, reading: Reading, left: number): S.Prior {
  const mean = Float64Array.from(machine.design);
  const sd = new Float64Array(S.UNKNOWNS);
  const by = machine.capillary ? 'capillary' : 'valve';
  const thermometer = thermometerOf(reading);
  sd[S.TC] = 30;
  sd[S.TE] = 25;
  sd[S.FLOODED] = 0.3;
  sd[S.DRY] = reading.suctionLineK === undefined ? UNREAD_DRY : 0.35;
  const [over, overSd] = ROOM_TO_COIL.unread;
  const ownOver = unit.airOverRoomK;
  const { airInK, airAgainK } = reading;
  const air = airInK !== undefined && airAgainK !== undefined ? (airInK + airAgainK) / 2 : airInK;
  mean[S.AIR] = air ?? (reading.roomAirK === undefined ? 298 : reading.roomAirK + (ownOver ?? over));
  sd[S.AIR] =
    air !== undefined
      ? airSdOf(reading, airAgainK === undefined ? 1 : 2)
      : reading.roomAirK === undefined
        ? 12
        : Math.hypot(thermometer, (ownOver === undefined ? overSd : overSd / 2) * left);
  mean[S.LN_K] = 0;
  sd[S.LN_K] = 1;
  mean[S.GAS] = 0;
  sd[S.GAS] = SOUND.gas;
  sd[S.LN_EVAP] = SOUND.lnEvaporator * left;
  const [off, offSd] = BOX.sound;
  mean[S.BOX] = reading.boxK ?? unit.boxSetPointK + off;
  sd[S.BOX] = reading.boxK === undefined ? offSd : thermometer;
  sd[S.LN_PUMP] = SOUND.lnPump * left;
  sd[S.GAIN] = SOUND.gain[by] * left;
  sd[S.CHARGE] = SOUND.charge[by] * left;
  sd[S.LN_VALVE] = SOUND.lnValve * left;
  mean[S.OVER] = overMeanOf(machine, unit);
  sd[S.OVER] = SOUND.overK * left;
  return { mean, sd };
}

function overMeanOf({ capillary }: Machine, { kind, application }: CondenserUnit): number {
  const { overMeanK } = SOUND;
  if (kind === 'ice_machine') return overMeanK.ice;
  if (kind === 'display' && !capillary && application === 'medium') return overMeanK.display;
  return overMeanK[capillary ? 'capillary' : 'valve'][application];
}

/**
 * From a machine of its kind to this one. What is read now and was not then is no better known than of any machine of the kind, and
 * neither is discharge gas that was never clamped.
 */
function asItsOwn({ mean, sd }: S.Prior, reading: Reading, { own = {} }: CleanBaseline, learnt: boolean): void {
  if (!learnt) return;
  for (const part of OWN_PARTS) {
    const [i, field] = S.OWN[part];
    const off = own[part];
    if (off !== undefined) mean[i] = mean[i]! + off;
    else if (reading[field] !== undefined || i === S.OVER) sd[i] = sd[i]! / LEFT_WHEN_LEARNT;
  }
}

function startAt(machine: Machine, sound: S.Prior, reading: Reading, atmospherePa: number): Float64Array {
  const x = Float64Array.from(sound.mean);
  const { fluid } = machine;
  const condensing = condensingOf(machine, reading, atmospherePa);
  const mean = Number.isFinite(condensing) ? condensing : x[S.AIR]! + machine.profile.cleanRiseK;
  x[S.TC] = Math.min(fluid.hiK - 1, Math.max(x[S.AIR]! + 2, mean + fluid.glide(mean) / 2));
  const te =
    reading.suctionPaGauge === undefined
      ? x[S.BOX]! - machine.profile.evaporatorDifferenceK
      : fluid.dewT(reading.suctionPaGauge + atmospherePa);
  x[S.TE] = Math.max(fluid.loK, Math.min(x[S.BOX]! - 1, te));
  x[S.LN_K] = Math.log(machine.profile.cleanRiseK / Math.max(2, x[S.TC]! - fluid.glide(x[S.TC]!) / 2 - x[S.AIR]!));
  return x;
}
