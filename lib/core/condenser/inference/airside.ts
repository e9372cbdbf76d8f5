import { keysOf } from '../../typed/closed-set';
import { holdK } from '../causes/head-control';
import type { CauseId, Reading } from '../types';
import { lossSpread, type LikelihoodOfK } from './infer';
import { coilGradeGiven, FAILED_FAN } from './looks';
import { dirtBeside, LOSS, USUAL_DIRT } from './priors';
import type { Scene } from './scene';

/** A cause that shows only through the condenser's conductance: one solution serves them all, split by how much is lost. */
export type AirsidePart = { cause: CauseId; lnEvidence: number; loss: number; lossSd: number };

const normal = (x: number, mean: number, sd: number) => Math.exp(-0.5 * ((x - mean) / sd) ** 2) / (sd * 2.5066282746310002);
const FROM = -1.2;
const TO = 2.6;
const STEP = 0.04;
const DAY_MS = 86_400_000;
/** Growth of a deposit between readings, a day: mean and sd (a line coil in a kitchen; judgement). */
const GROWTH = 0.003;

type Density = (loss: number) => number;
type Past = { loss: number; sd: number; days: number };

export function airside(scene: Scene, measured: LikelihoodOfK, priors: Record<CauseId, number>): AirsidePart[] {
  const past = pastOf(scene);
  const spreads: number[] = [];
  for (let f = FROM; f <= TO; f += STEP) spreads.push(lossSpread(scene, measured.sd, f));
  const parts: AirsidePart[] = [];
  const add = (cause: CauseId, prior: Density) => {
    if (priors[cause] > 0) parts.push(integrated(cause, prior, scene, measured, spreads));
  };
  for (const cause of keysOf(LOSS)) if (canShow(cause, scene)) add(cause, lossDensity(cause, scene, past));
  const air = scene.reading.airInK ?? scene.reading.roomAirK;
  const cleanRise = scene.baseline.cleanRiseK;
  if (air !== undefined && air + cleanRise < holdK(scene.unit) + 1) {
    const held = Math.max(cleanRise * 0.8, holdK(scene.unit) - air);
    add('head_pressure_control', (f) => normal(f, Math.log(held / cleanRise), Math.max(0.2, 4 / held)));
  }
  return parts;
}

/** The loss of the reading before this one, −ln(K/K_clean). */
function pastOf({ history, reading }: Scene): Past | null {
  const last = history.filter((h) => h.at < reading.at).at(-1);
  if (!last) return null;
  return {
    loss: -Math.log(Math.max(0.05, 1 - last.lost)),
    sd: last.sd / Math.max(0.2, 1 - last.lost),
    days: (reading.at - last.at) / DAY_MS,
  };
}

/** Without coil air no hot air can be seen to come back, without the box no load. */
function canShow(cause: CauseId, { reading, boxMeasured }: Scene): boolean {
  if (cause === 'recirculation') return reading.airInK !== undefined;
  return cause !== 'high_load' || boxMeasured;
}

/**
 * How likely a loss is under a cause before the reading. Earlier readings count: a coil goes on from where it was, what is
 * sound was sound, a failure comes from either.
 */
function lossDensity(cause: keyof typeof LOSS, { reading }: Scene, past: Past | null): Density {
  const was = (mean: number, sd: number) => (past ? normal(past.loss, mean, Math.hypot(sd, past.sd)) : 1);
  const shape = LOSS[cause] ?? [];
  if (cause !== 'coil_fouling') {
    const then = was(0.02, 0.1);
    const fan = cause === 'condenser_fan' ? reading.fanGrade : undefined;
    const [more, moreSd] = cause === 'nothing' ? NO_MORE : moreDirt(reading);
    const ways = shape.map(
      ([m, s, share], i) => [m + more, Math.hypot(s, moreSd), share * (fan ? (FAILED_FAN[i]?.[fan] ?? 1) : 1)] as const,
    );
    return (f) => {
      let p = 0;
      for (const way of ways) p += way[2] * normal(f, way[0], way[1]);
      return then * p;
    };
  }
  const [mean, sd] = shape[0] ?? [0, 1];
  const [m, s] = reading.phase === 'after' ? [0.25, 0.2] : [mean, sd];
  if (!past || past.days >= 400) return (f) => (f > 0 ? normal(f, m, s) : 0);
  const grown = past.loss + GROWTH * past.days;
  const grownSd = Math.hypot(past.sd, 0.03 + GROWTH * past.days);
  return (f) => (f > 0 ? was(m, s) * normal(f, grown, grownSd) : 0);
}

const NO_MORE = [0, 0] as const;
/** What a coil seen to be dirty takes beside what another cause takes, over the usual dirt that its shape holds already. */
function moreDirt(reading: Reading): readonly [number, number] {
  const [mean, sd] = dirtBeside(reading);
  const more = mean - USUAL_DIRT[0];
  return more > 0.05 ? [more, Math.sqrt(Math.max(0, sd * sd - USUAL_DIRT[1] ** 2))] : NO_MORE;
}

/** Evidence, mean and spread of a cause's loss: the density, the reading and the grade of the coil multiplied and summed. */
function integrated(cause: CauseId, prior: Density, scene: Scene, measured: LikelihoodOfK, spreads: readonly number[]): AirsidePart {
  const centre = scene.lnClean - measured.mean;
  const { coilGrade } = scene.reading;
  let [z, m, v, i] = [0, 0, 0, 0];
  for (let f = FROM; f <= TO; f += STEP) {
    const graded = cause === 'coil_fouling' && coilGrade ? coilGradeGiven(coilGrade, f) : 1;
    const w = prior(f) * normal(f, centre, spreads[i++]!) * graded * STEP;
    z += w;
    m += w * f;
    v += w * f * f;
  }
  if (!(z > 1e-300)) z = 1e-300;
  const mean = m / z;
  return { cause, lnEvidence: measured.ln + Math.log(z), loss: mean, lossSd: Math.sqrt(Math.max(1e-4, v / z - mean * mean)) };
}
