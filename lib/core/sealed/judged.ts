import { atmosphereAt } from '../measures';
import { whole } from '../measures/figures';
import { counted } from '../wording/counted';
import { entryUnit, ownUnitOf } from '../measures/entry-units';
import type { MeasureUnits } from '../measures/preferred';
import { judgePressureTest, type PressureJudgement } from './pressure-test';
import { judgeVacuum, type VacuumJudgement } from './vacuum-decay';
import type { SealedWork } from './work';

/** What a step's figures say: in the same words on the tablet and on the record. */

type Work<S extends SealedWork['step']> = Extract<SealedWork, { step: S }>;

/** A clamp on a tube, standard deviation in K: judgement. */
const CLAMP_SD_K = 0.5;

export const PRESSURE_VERDICT: Record<PressureJudgement['verdict'], string> = {
  holds: 'It holds.',
  leaks: 'It leaks.',
  rose: 'It rose more than the warmth explains: read again.',
  too_short: 'Nothing shows yet; too short to say that it holds.',
  above_plate: 'Above the plate’s test pressure.',
};

export const VACUUM_VERDICT: Record<VacuumJudgement['verdict'], string> = {
  tight_and_dry: 'Tight and dry.',
  moisture: 'Tight, but wet: it levels off too high.',
  leak: 'It rises straight: a leak, or water still boiling off.',
  leak_and_moisture: 'It rises far, and on: a leak, much water, or both.',
  not_yet: 'Can’t say yet.',
  too_high: 'Not deep enough to begin: pump on.',
};

/** @returns the judgement of a pressure test at an altitude in m, and the minutes it took; null where it ends before it began */
export function judgedPressure(work: Work<'pressure_test'>, altitudeM: number): { j: PressureJudgement; minutes: number } | null {
  const { start, end, platePaGauge, gaugeDivisionPa } = work;
  const minutes = (Date.parse(end.at) - Date.parse(start.at)) / 60_000;
  if (!(minutes > 0)) return null;
  const j = judgePressureTest({
    start: { ...start, minutes: 0 },
    end: { ...end, minutes },
    atmospherePa: atmosphereAt(altitudeM),
    gaugeSdPa: gaugeDivisionPa / 2,
    temperatureSdK: CLAMP_SD_K,
    platePaGauge,
  });
  return { j, minutes };
}

const percent = (p: number) => (p > 0.99 ? 'above 99 %' : p < 0.01 ? 'below 1 %' : `${Math.round(p * 100)} %`);

/** How likely it leaks and how fast, and where it levels off. */
export function vacuumFigures(j: VacuumJudgement, limit: number): string {
  const { median, lo, hi } = j.level;
  const level = `Without a leak it would level off near ${whole(median)} microns (${whole(lo)} to ${whole(hi)}, four times in five)`;
  return `Chance of a leak: ${percent(j.leak)}${j.leak > 0.05 ? rateWords(j.rate) : ''}. ${level}; chance that this is above ${limit}: ${percent(j.wet)}.`;
}

/** How fast it rises in a straight line: a figure where there is one, else the most that may be. */
function rateWords({ median, lo, hi }: VacuumJudgement['rate']): string {
  if (Math.round(hi) === 0) return '';
  return Math.round(lo) > 0
    ? `; it rises in a straight line by ${counted(Math.round(median), 'micron')} a minute (${whole(lo)} to ${whole(hi)}, four times in five)`
    : `; it rises in a straight line by at most ${counted(Math.round(hi), 'micron')} a minute (nine times in ten)`;
}

/** What a step on file was judged, with its band; nothing where a step has no judgement. */
export function judgedWords(work: SealedWork, units: MeasureUnits, altitudeM: number): string | null {
  if (work.step === 'pressure_test') return pressureWords(work, units, altitudeM);
  if (work.step !== 'evacuate' || work.readings.length < 2) return null;
  const j = judgeVacuum(work.readings, { limitMicrons: work.limitMicrons });
  return j.verdict === 'too_high' ? VACUUM_VERDICT.too_high : `${VACUUM_VERDICT[j.verdict]} ${vacuumFigures(j, work.limitMicrons)}`;
}

function pressureWords(work: Work<'pressure_test'>, units: MeasureUnits, altitudeM: number): string | null {
  const judged = judgedPressure(work, altitudeM);
  if (!judged) return null;
  const { j, minutes } = judged;
  const { label, fromSi } = entryUnit('pressure', ownUnitOf('pressure', units));
  // A difference of pressures: what the unit makes of nothing falls out.
  const own = (pa: number) => (fromSi(pa) - fromSi(0)).toFixed(2).replace('-', '−');
  const half = (j.band[1] - j.band[0]) / 2;
  return `${PRESSURE_VERDICT[j.verdict]} Lost in ${Math.round(minutes)} min, beyond what the change of temperature explains: ${own(j.dropPa)} ± ${own(half)} ${label.replace(/g$/, '')} (four times in five).`;
}
