import { ASPECTS, isStopped, type Aspect, type CoilGrade, type FanGrade, type GradeOf } from './grades';

/** What a reading can see besides its numbers: the grades that held when it was taken. */
export type SeenAtReading = {
  coilGrade: CoilGrade | null;
  /** Of the condenser's fan. */
  fanGrade: FanGrade | null;
  airPathGrade: GradeOf<'air_path'> | null;
  evaporatorFanGrade: FanGrade | null;
  evaporatorCoilGrade: GradeOf<'evaporator_coil'> | null;
  iceGrade: GradeOf<'ice'> | null;
};

type Look = { aspect: Aspect; grade: string | null; phase: string };

/** Dirt is as the work left it; a part that nobody wrote down again is as it was met. */
const STAYS: readonly Aspect[] = ASPECTS.filter((a) => a !== 'coil');

/**
 * Which grades of a visit hold at one of its readings: what was left after the work is what a reading after it sees,
 * where anybody wrote it down; a coil's grade from before the cleaning says nothing after it. One answer for tablet,
 * office and learning.
 */
export function seenAt(looks: readonly Look[], phase: string): SeenAtReading {
  const wanted = phase === 'after' ? 'left' : 'found';
  const at = <A extends Aspect>(aspect: A): GradeOf<A> | null => {
    const mine = looks.filter((l) => l.aspect === aspect && l.grade !== null);
    const look = mine.find((l) => l.phase === wanted) ?? (STAYS.includes(aspect) ? mine.find((l) => l.phase === 'found') : undefined);
    return (look?.grade ?? null) as GradeOf<A> | null;
  };
  return {
    coilGrade: at('coil'),
    fanGrade: at('condenser_fan'),
    airPathGrade: at('air_path'),
    evaporatorFanGrade: at('evaporator_fan'),
    evaporatorCoilGrade: at('evaporator_coil'),
    iceGrade: at('ice'),
  };
}

/** A reading with the condenser fan dead says nothing of the coil. */
export const fanDead = (seen: Pick<SeenAtReading, 'fanGrade'>): boolean =>
  seen.fanGrade !== null && isStopped('condenser_fan', seen.fanGrade);
