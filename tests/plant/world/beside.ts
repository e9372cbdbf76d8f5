import type { CoilGrade, FanGrade, GradeOf, IceGrade } from '../../../lib/core/findings/grades';
import type { Chance } from './chance';
import type { Around, Faults, Machine } from './machine';
import { SOUND } from './machine';
import { run } from './solve';
import { aimedLoss, dirt, type State } from './states';

/**
 * What stands beside one trouble in a kitchen that nobody tidied for a test, and how it is graded. Every chance here is judgement, set
 * before any answer was looked at: no published count of what is met together was found.
 */
export type Beside = {
  /** Part of the condensing conductance that dirt alone is meant to take. */
  coilLost: number;
  /** Of cooling on the hot day, each alone; null where the machine would not stand. */
  byDirt: number | null;
  byFault: number | null;
  /** The dirt takes more cooling than the fault does: the coil is the trouble, the fault stands beside it. */
  coilIsMore: boolean;
};

type Extra = {
  faults: Partial<Faults>;
  coat: Pick<Faults, 'open' | 'resistance' | 'film'>;
  coilLost: number;
  evaporator: Evaporator;
  ice: IceGrade;
  airPath: AirPath;
};
type AirPath = GradeOf<'air_path'>;
type Evaporator = GradeOf<'evaporator_coil'>;

const COIL: readonly State[] = ['foul15', 'foul30', 'foul50'];
/** No fault of the machine: a coil that took a third would be what there is to say of it. */
const NO_FAULT: readonly State[] = ['clean', 'head_control', 'high_load', 'not_steady', 'bad_instrument'];
/** Little refrigerant in a cold evaporator: its inlet ices. */
const STARVED: readonly State[] = ['low_charge', 'restriction'];

/** Where the coil is not the trouble: little dirt, an everyday coat, or a coil furred to matted. */
function coatOf(state: State, c: Chance): number {
  if (COIL.includes(state)) return aimedLoss(state);
  const u = c.unit();
  if (state === 'clean' || u < 0.45) return 0;
  return u < 0.7 || NO_FAULT.includes(state) ? c.between(0.05, 0.15) : c.between(0.15, 0.35);
}

export function extraOf(state: State, m: Machine, c: Chance): Extra {
  const coilLost = coatOf(state, c);
  const coat = COIL.includes(state) || coilLost === 0 ? { open: 1, resistance: 1, film: 0 } : dirt(m, coilLost, c);
  const evaporator = evaporatorOf(state, c);
  const ice = iceOf(state, c);
  const airPath = state === 'blocked' ? (c.yes(0.7) ? 'blocked' : 'narrowed') : c.yes(0.15) ? 'narrowed' : c.yes(0.01) ? 'blocked' : 'open';
  const carton = state !== 'blocked' && airPath !== 'open' ? c.between(1.1, 1.6) : 1;
  const dust = state === 'dirty_evaporator' ? 'clean' : evaporator;
  const rime = state !== 'iced' && ice === 'part_iced';
  const faults: Partial<Faults> = {
    open: coat.open,
    resistance: coat.resistance * carton,
    film: coat.film,
    boxFilm: dust === 'dusty' ? c.between(0, 0.15) : dust === 'clogged' ? c.between(0.15, 0.3) : 0,
    boxResistance: dust === 'clogged' ? c.between(1.2, 1.5) : 1,
    boxOpen: rime ? c.between(0.85, 0.97) : 1,
  };
  return { faults, coat, coilLost, evaporator, ice, airPath };
}

function evaporatorOf(state: State, c: Chance): Evaporator {
  if (state === 'dirty_evaporator') return c.of<Evaporator>(['clogged', 'clogged', 'clogged', 'choked', 'dusty']);
  const u = c.unit();
  return u < 0.04 ? 'clogged' : u < (state === 'iced' ? 0.45 : 0.3) ? 'dusty' : 'clean';
}

function iceOf(state: State, c: Chance): IceGrade {
  if (state === 'iced') return c.of<IceGrade>(['part_iced', 'bridged', 'bridged', 'block']);
  if (c.yes(STARVED.includes(state) ? 0.25 : 0.05)) return 'part_iced';
  return c.of<IceGrade>(['dry', 'even_frost']);
}

/** A fault with what stands beside it. */
export const together = (f: Faults, { faults: e }: Extra): Faults => ({
  ...f,
  open: f.open * (e.open ?? 1),
  resistance: f.resistance * (e.resistance ?? 1),
  film: f.film + (e.film ?? 0),
  boxFilm: f.boxFilm + (e.boxFilm ?? 0),
  boxResistance: f.boxResistance * (e.boxResistance ?? 1),
  boxOpen: f.boxOpen * (e.boxOpen ?? 1),
});

/** What each takes alone. */
export function besideOf(state: State, m: Machine, fault: Faults, extra: Extra, hot: Around): Beside {
  const sound = run(m, SOUND, hot);
  const lost = (f: Faults) => {
    const r = sound && run(m, f, hot, sound);
    return r ? 1 - r.coolingW / sound.coolingW : null;
  };
  const byFault = lost(fault);
  const byDirt = lost({ ...SOUND, ...extra.coat });
  const coilIsMore =
    extra.coilLost >= SECOND_TROUBLE && !COIL.includes(state) && !NO_FAULT.includes(state) && byFault !== null && (byDirt ?? 1) > byFault;
  return { coilLost: extra.coilLost, byDirt, byFault, coilIsMore };
}
/** Dirt from which a cleaning is worth its hour whatever else is wrong. */
export const SECOND_TROUBLE = 0.1;

/** The coil as an eye grades it; one look in thirty is written down a grade off. */
export function coilGradeOf(lost: number, c: Chance): CoilGrade {
  const seen: readonly CoilGrade[] =
    lost > 0.4 ? ['matted', 'matted', 'packed'] : lost > 0.2 ? ['furred', 'furred', 'matted'] : lost > 0.1 ? ['filmed', 'furred'] : lost > 0.04 ? ['filmed', 'filmed', 'bare', 'furred'] : ['bare', 'filmed']; // prettier-ignore
  const grade = c.of(seen);
  if (!c.yes(1 / 30)) return grade;
  const all: readonly CoilGrade[] = ['bare', 'filmed', 'furred', 'matted', 'packed'];
  return all[Math.max(0, all.indexOf(grade) + (c.yes(0.5) ? 1 : -1))] ?? grade;
}

/** A fan that stands is seen to, but for one look in twenty. */
export function fanGradeOf(fails: 'dead' | 'slow' | 'no', c: Chance): FanGrade {
  if (fails === 'dead') return c.yes(0.95) ? 'failed' : 'worn';
  if (fails === 'slow') return c.of<FanGrade>(['worn', 'worn', 'failed', 'failed', 'sound']);
  return c.of<FanGrade>(['sound', 'sound', 'sound', 'sound', 'worn']);
}
