import type { CondenserUnit, Conditions, Reading } from '../../../lib/core/condenser/types';
import type { CoilGrade, FanGrade, GradeOf, IceGrade } from '../../../lib/core/findings/grades';
import type { Placement } from '../../../lib/core/equipment/build';
import { besideOf, coilGradeOf, extraOf, fanGradeOf, together, type Beside } from './beside';
import { build, type Design } from './build';
import { Chance } from './chance';
import { lnPressureAt } from './fluid';
import { look, SET_NAMES, typed, van, type InstrumentSet, type Van, type Whole } from './instruments';
import { motorOf, type Motor } from './motor';
import { SOUND, type Around, type Faults, type Machine } from './machine';
import { run, type Running } from './solve';
import { aimedLoss, dirt, faultsOf, STATES, type State } from './states';
import { TEMPLATES, type Part, type Template } from './templates';
import { truthOf, type Days, type Truth } from './truth';

/** What somebody saw who looked; kept apart from the readings so that every case can be judged blind and with grades. */
export type Looks = {
  coilGrade: CoilGrade;
  fanGrade: FanGrade;
  /** Evaporator. */
  iceGrade: IceGrade;
  boxFanGrade: FanGrade;
  airPathBlocked: boolean;
  /** Graded in a kitchen; where they are left out, as tidy as the state. */
  airPathGrade?: GradeOf<'air_path'>;
  evaporatorCoilGrade?: GradeOf<'evaporator_coil'>;
};

export type Case = {
  part: Part;
  seed: number;
  template: string;
  state: State;
  unit: CondenserUnit;
  conditions: Conditions;
  /** One reading by every set of instruments, of the same moment. */
  readings: Record<InstrumentSet, Reading>;
  /** Readings after cleanings, oldest first, by the same van; none where the unit is new to the shop. */
  cleanReadings: Record<InstrumentSet, Reading>[];
  /** Taken where it is asked for, the machine off and its coil at the room's air: on the low side's gauge, as the high side's is what is doubted. */
  standing: Required<Pick<Reading, 'offCyclePaGauge' | 'offCycleAirK'>>;
  /** Head and coil air once more with another van's gauge and thermometer, at the same moment; where they are asked for. */
  again: Required<Pick<Reading, 'headAgainPaGauge' | 'airAgainK'>>;
  looks: Looks;
  truth: Truth;
  /** Of a case met as in a kitchen: what stands beside its trouble. */
  beside?: Beside;
};

const AIR_PA = 101325;
const DAY = 86_400_000;
const START = Date.UTC(2026, 5, 1, 15);

/**
 * The n-th case of a part; null where the machine would not stand in that state (it trips). Same n, same case. `kitchen`: dirt, ice and
 * worn things stand beside its trouble, and eyes err.
 */
export function makeCase(part: Part, n: number, only?: { state?: State; kitchen?: boolean }): Case | null {
  const mine = TEMPLATES.filter((t) => t.part === part);
  const c = new Chance('plant', part, n);
  const state = only?.state ?? pickState(n, c);
  const fits = mine.filter((t) => state !== 'head_control' || t.kind === 'walk_in_cooler' || t.kind === 'walk_in_freezer');
  const template: Template = { ...c.of(fits), ...(state === 'head_control' ? { headControl: true, outdoors: true } : {}) };
  for (let attempt = 0; attempt < 6; attempt++) {
    const side = only?.kitchen ? new Chance('beside', part, n, attempt) : null;
    const found = oneOf(part, n, template, state, new Chance('plant', part, n, attempt), side);
    if (found) return found;
  }
  return null;
}

/** Half of the cases are of the coil alone, in four grades of dirt; the rest are everything else in turn. */
function pickState(n: number, c: Chance): State {
  const coil = STATES.slice(0, 4);
  return c.yes(0.5) ? c.of(coil) : (STATES[4 + (n % (STATES.length - 4))] ?? 'clean');
}

function oneOf(part: Part, n: number, t: Template, state: State, c: Chance, side: Chance | null): Case | null {
  const { machine, design } = build(t, c);
  const fault = faultsOf(state, machine, c);
  const extra = side && extraOf(state, machine, side);
  const faults = extra ? together(fault, extra) : fault;
  const hotK = t.outdoors ? c.between(305, 313) : c.between(304, 314);
  const cleanRunShare = c.between(0.4, 0.75);
  const roomK = roomOf(state, hotK, c);
  const water = t.kind === 'ice_machine';
  const standing = water ? cycled(faults, c) : faults;
  const around = { roomK, boxK: boxOf(t, state, machine, standing, roomK, cleanRunShare, c) };
  const now = run(machine, standing, around);
  if (!now || now.dewK > (machine.fluid.dewK[machine.fluid.rows - 4] ?? 0)) return null;
  const days: Days = { hotK, usualK: hotK - 6, boxK: t.boxK, cleanRunShare };
  const truth = truthOf(machine, faults, now, around, days, AIR_PA);
  // Severity is that of the fault alone, whatever stands beside it.
  const alone = extra ? run(machine, fault, around, now) : now;
  if (!truth || !alone || !plain(state, extra ? truthOf(machine, fault, alone, around, days, AIR_PA) : truth)) return null;
  const v = van(c);
  const hunting = t.expansion === 'valve' && c.yes(0.3) ? c.between(0.5, 1.5) : 0;
  const classKnown = c.yes(0.6);
  const motor = motorOf(new Chance('motor', part, n), design.powerW);
  const shown = look({ running: now, around, motor, airPa: AIR_PA, hunting }, v, c);
  const read = spoilt(state, shown, now, around, c);
  const minutes =
    state === 'not_steady'
      ? c.yes(0.6)
        ? Math.round(c.between(1, 5))
        : undefined
      : c.yes(0.7)
        ? Math.round(c.between(12, 60))
        : undefined;
  const at = START + n * 977_000;
  const readings = eachSet(read, v, classKnown, { at, phase: 'before', steadyMinutes: minutes }, water);
  const cleanReadings = c.yes(0.45) ? earlier(t, { machine, motor }, hotK, v, classKnown, at, c) : [];
  return {
    part,
    seed: n,
    template: t.name,
    state,
    unit: unitOf(t, machine, design, c),
    conditions: conditionsOf(days, t, c),
    readings,
    cleanReadings,
    standing: {
      offCyclePaGauge: standingPa(machine, faults, around, v, new Chance('standing', part, n)),
      offCycleAirK: read.whole.roomAirK,
    },
    again: againOf(state === 'bad_instrument' ? shown : read.whole, v, new Chance('again', part, n)),
    looks: extra && side ? { ...looksOf(state, c), ...kitchenLooks(state, extra, side) } : looksOf(state, c),
    truth,
    ...(extra ? { beside: besideOf(state, machine, fault, extra, { roomK: hotK, boxK: t.boxK }) } : {}),
  };
}

function roomOf(state: State, hotK: number, c: Chance): number {
  if (state === 'head_control') return c.between(262, 288);
  if (state === 'dead_fan') return c.between(291, 302);
  return Math.min(hotK + 2, c.between(293, 311));
}

/** An ice machine is read somewhere in its freezing: the more ice on the plate, the more is in the way. */
const cycled = (faults: Faults, c: Chance): Faults => ({ ...faults, boxFilm: faults.boxFilm + c.between(0, 0.8) });

/** Where the box has come to: at its set point while there is cooling to spare, warmer when there is not. */
function boxOf(t: Template, state: State, m: Machine, faults: Faults, roomK: number, share: number, c: Chance): number {
  if (t.kind === 'ice_machine') return 273.15;
  const usual = t.boxK + c.normal(0.5, 0.7);
  // A third of the badly fouled are met with a warm box: full of warm food, or not keeping up.
  if (state === 'high_load' || (state === 'foul50' && c.yes(0.33))) return usual + c.between(7, 18);
  const sound = run(m, SOUND, { roomK, boxK: t.boxK });
  const ill = run(m, faults, { roomK, boxK: usual }, sound ?? undefined);
  if (!sound || !ill) return usual;
  const short = Math.max(0, (share * sound.coolingW) / ill.coolingW - 1);
  // Walk-ins with a condensing unit outdoors stand in a warm building.
  const ceiling = t.outdoors ? 290 : roomK - 8;
  return Math.min(ceiling, usual + Math.min(12, 16 * short));
}

/** A state that does nothing is no case of it: half an ounce of charge missing from a full receiver. */
function plain(state: State, truth: Truth | null): boolean {
  if (!truth) return false;
  const lost = truth.coolingLost ?? 1;
  if (state === 'low_charge' || state === 'restriction') return lost > 0.08 && lost < 0.55;
  if (state === 'leaking_valves' || state === 'iced') return lost > 0.05;
  if (state === 'overcharge') return truth.conductanceLost > 0.08 && truth.conductanceLost < 0.35;
  return true;
}

/**
 * What is read where an instrument is off or the machine has not settled. `whole`: whichever of the gauge and the clamp a set reads condensing
 * with is off, so that none of them has a sound one; `alone`: one of them, for a set that has both.
 */
type Read = { whole: Whole; alone: Whole };
const asItIs = (w: Whole): Read => ({ whole: w, alone: w });

function spoilt(state: State, w: Whole, now: Running, around: Around, c: Chance): Read {
  if (state === 'not_steady') {
    const left = Math.exp(-c.between(0.5, 2.2));
    const idle = around.roomK - (around.roomK - around.boxK) * 0.2;
    const back = (to: number, from: number) => to + left * (from - to);
    const cool = around.roomK + 2;
    return asItIs({
      ...w,
      headPaGauge: w.headPaGauge - left * 0.75 * (now.headPa - now.suctionPa) * 0.6,
      suctionPaGauge: w.suctionPaGauge + left * 0.25 * (now.headPa - now.suctionPa) * 0.6,
      condensingClampK: back(w.condensingClampK, cool),
      liquidLineK: back(w.liquidLineK, cool),
      dischargeLineK: back(w.dischargeLineK, around.roomK + 10),
      suctionLineK: back(w.suctionLineK, idle),
    });
  }
  if (state !== 'bad_instrument') return asItIs(w);
  const sign = c.yes(0.5) ? 1 : -1;
  const wrong = c.of(['gauge', 'clamp', 'air'] as const);
  if (wrong === 'gauge') {
    const off = 1 + sign * c.between(0.1, 0.22);
    const alone = { ...w, headPaGauge: w.headPaGauge * off };
    return { alone, whole: { ...alone, condensingClampK: w.condensingClampK - c.between(5, 10) } };
  }
  if (wrong === 'clamp') {
    const loose = c.between(0.4, 0.8);
    const slack = (T: number) => T - loose * (T - around.roomK);
    const alone = { ...w, condensingClampK: slack(w.condensingClampK), liquidLineK: slack(w.liquidLineK) };
    return { alone, whole: { ...alone, headPaGauge: w.headPaGauge * (1 - c.between(0.1, 0.2)) } };
  }
  const off = sign * c.between(4.5, 8);
  return asItIs({ ...w, airInK: w.airInK + off, roomAirK: w.roomAirK + off });
}

/** One in four has its liquid drawn over to the cold evaporator; gas from the condenser spreads into the rest of the machine. */
function standingPa(m: Machine, faults: Faults, { roomK, boxK }: Around, v: Van, c: Chance): number {
  const cold = c.yes(0.25) ? c.between(0.3, 0.9) : 0;
  const saturated = Math.exp(lnPressureAt(m.fluid, m.fluid.bubbleK, roomK - cold * (roomK - boxK)));
  return saturated + faults.gasPa * c.between(0.5, 1) - AIR_PA + v.suctionOffsetPa + c.normal(0, v.suctionScatterPa);
}

/** What another van's instruments show beside these, of which none is bad. */
function againOf(w: Whole, v: Van, c: Chance): Case['again'] {
  const other = van(c);
  return {
    headAgainPaGauge: w.headPaGauge - v.headOffsetPa + other.headOffsetPa + c.normal(0, other.headScatterPa),
    airAgainK: w.airInK - v.lasting.air + other.lasting.air + c.normal(0, 0.6 * other.thermometerSdK + 0.3),
  };
}

function eachSet(
  { whole, alone }: Read,
  v: Van,
  classKnown: boolean,
  head: Pick<Reading, 'at' | 'phase' | 'steadyMinutes'>,
  water: boolean,
): Case['readings'] {
  const { steadyMinutes, ...rest } = head;
  const one = (set: InstrumentSet): Reading => {
    const { boxK, ...values } = typed(set === 'full_bend' ? alone : whole, set, v, classKnown);
    return {
      ...rest,
      ...values,
      ...(boxK !== undefined && !water ? { boxK } : {}),
      ...(steadyMinutes !== undefined ? { steadyMinutes } : {}),
    };
  };
  return Object.fromEntries(SET_NAMES.map((s) => [s, one(s)])) as Case['readings'];
}

/** Two or three visits on which the coil was cleaned and the machine read again. Cleaned is not new. */
function earlier(
  t: Template,
  { machine: m, motor }: { machine: Machine; motor: Motor },
  hotK: number,
  v: Van,
  classKnown: boolean,
  at: number,
  c: Chance,
): Case['cleanReadings'] {
  const count = c.yes(0.5) ? 2 : 3;
  return Array.from({ length: count }, (_, i) => {
    const faults = { ...SOUND, ...dirt(m, c.between(0, 0.06), c) };
    const around = { roomK: Math.min(hotK, c.between(294, 308)), boxK: t.kind === 'ice_machine' ? 273.15 : t.boxK + c.normal(0.5, 0.7) };
    const r = run({ ...m, holdK: undefined }, t.kind === 'ice_machine' ? cycled(faults, c) : faults, around);
    if (!r) return [];
    const read = asItIs(look({ running: r, around, motor, airPa: AIR_PA, hunting: 0 }, v, c));
    const head = { at: at - (count - i) * 90 * DAY, phase: 'after' as const, steadyMinutes: Math.round(c.between(12, 40)) };
    return [eachSet(read, v, classKnown, head, t.kind === 'ice_machine')];
  }).flat();
}

function unitOf(t: Template, m: Machine, design: Design, c: Chance): CondenserUnit {
  const placement: Placement = t.outdoors ? 'outdoors' : c.of(['line', 'fryer', 'back_of_house', 'bar'] as const);
  return {
    refrigerant: t.refrigerant,
    kind: t.kind,
    application: t.application,
    expansion: t.expansion,
    circuitAccess: t.sealed ? 'sealed' : 'ports',
    condenserKind: t.condenser,
    placement,
    boxSetPointK: t.kind === 'ice_machine' ? 272.04 : t.boxK,
    altitudeM: 0,
    ...(c.yes(0.5) ? { chargeKg: m.chargeKg * c.about(0.03) } : {}),
    ...(m.holdK !== undefined && c.yes(0.5) ? { hasHeadControl: true } : !t.outdoors && c.yes(0.4) ? { hasHeadControl: false } : {}),
    ...(c.yes(0.45) ? { nominalCoolingW: Math.round(design.coolingW * c.about(0.05)) } : {}),
  };
}

function conditionsOf(d: Days, t: Template, c: Chance): Conditions {
  return {
    hotDayAirK: d.hotK,
    boxK: t.kind === 'ice_machine' ? 272.04 : t.boxK,
    energyPricePerKwh: 0.16,
    currency: 'USD',
    ...(c.yes(0.5) ? { cleanRunHoursPerDay: 24 * d.cleanRunShare * c.about(0.08) } : {}),
  };
}

function looksOf(state: State, c: Chance): Looks {
  const lost = aimedLoss(state);
  const coil: readonly CoilGrade[] =
    lost > 0.4 ? ['matted', 'matted', 'packed'] : lost > 0.2 ? ['furred', 'furred', 'matted'] : lost > 0 ? ['filmed', 'furred'] : ['bare', 'filmed']; // prettier-ignore
  const ice: readonly IceGrade[] = state === 'iced' ? ['bridged', 'block', 'part_iced'] : ['dry', 'even_frost'];
  return {
    coilGrade: c.of(coil),
    fanGrade:
      state === 'dead_fan'
        ? 'failed'
        : state === 'slow_fan'
          ? c.of<FanGrade>(['worn', 'failed'])
          : c.of<FanGrade>(['sound', 'sound', 'sound', 'worn']),
    iceGrade: c.of(ice),
    boxFanGrade: state === 'dead_box_fan' ? 'failed' : 'sound',
    airPathBlocked: state === 'blocked',
  };
}

const kitchenLooks = (state: State, { coilLost, ice, airPath, evaporator }: ReturnType<typeof extraOf>, c: Chance): Looks => ({
  coilGrade: coilGradeOf(coilLost, c),
  fanGrade: fanGradeOf(state === 'dead_fan' ? 'dead' : state === 'slow_fan' ? 'slow' : 'no', c),
  iceGrade: ice,
  boxFanGrade: fanGradeOf(state === 'dead_box_fan' ? 'dead' : 'no', c),
  airPathBlocked: airPath === 'blocked',
  airPathGrade: airPath,
  evaporatorCoilGrade: evaporator,
});
