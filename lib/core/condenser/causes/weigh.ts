import { CAUSES, type Cause, type CauseId } from '../types';
import { jump, looked, recirculation } from './airside';
import { charge } from './charge';
import type { Evidence, Rule, Scene } from './evidence';
import { fault, headControl, load } from './load';
import { standing } from './standing';

/** Belief before any evidence, as log odds against a fouled coil: how often each is met on kitchen rounds (from memory). */
const BEFORE: Record<CauseId, number> = {
  coil_fouling: 0,
  condenser_fan: -2,
  recirculation: -2.2,
  high_load: -2.2,
  low_charge: -2.4,
  overcharge: -2.6,
  non_condensables: -2.8,
  reading_fault: -3,
  head_pressure_control: -4,
};

/** The reading or look that would decide. */
const NEXT: Record<CauseId, string> = {
  coil_fouling: 'Shine a lamp through the coil from behind and grade it.',
  condenser_fan: 'Look at the condenser fan: turning, right way round, full speed, blade whole.',
  recirculation: 'Measure the air at the coil face and in the room, and look for what blocks the outlet.',
  high_load: 'Read again when the box is at its set point with the doors shut.',
  low_charge: 'Read liquid line and suction line temperature for subcooling and superheat; look for oil at the joints.',
  overcharge: 'Clamp the liquid line and read the subcooling.',
  non_condensables: 'With it off and the coil at air temperature, compare standing pressure with saturation at that air.',
  reading_fault: 'Take the odd entries again, with a second instrument if there is one.',
  head_pressure_control: 'Read again in warmer air, or with the control satisfied.',
};

const RULES: readonly Rule[] = [charge, standing, jump, looked, recirculation, load, headControl, fault];

export type Weighed = { causes: Cause[]; evidence: Map<CauseId, number> };

/** Candidates by belief, strongest first, with the evidence for and against each. */
export function weigh(scene: Scene): Weighed {
  const all: Evidence[] = RULES.flatMap((rule) => rule(scene));
  if (scene.z > 1) all.push({ cause: 'coil_fouling', weight: 0.4, text: 'Condensing runs higher over the air than clean' });
  const evidence = new Map<CauseId, number>();
  for (const { cause, weight } of all) evidence.set(cause, (evidence.get(cause) ?? 0) + weight);
  const odds = CAUSES.map((id) => Math.exp(BEFORE[id] + (evidence.get(id) ?? 0)));
  const sum = odds.reduce((a, b) => a + b, 0);
  const causes = CAUSES.map((id, i) => ({
    id,
    weight: (odds[i] as number) / sum,
    for: all.filter((e) => e.cause === id && e.weight > 0).map((e) => e.text),
    against: all.filter((e) => e.cause === id && e.weight < 0).map((e) => e.text),
    next: NEXT[id],
  }));
  return { causes: causes.sort((a, b) => b.weight - a.weight), evidence };
}
