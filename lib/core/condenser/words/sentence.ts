import { differenceWords } from './both-units';
import type { CannotSayReason, CauseId, EstimateOk, Figure, Reading } from '../types';

/** What the trade calls each cause in the middle of a sentence. */
export const CAUSE_LABEL: Record<CauseId, string> = {
  coil_fouling: 'a fouled coil',
  non_condensables: 'air in the system',
  overcharge: 'an overcharge',
  condenser_fan: 'the condenser fan',
  recirculation: 'hot air coming round again',
  head_pressure_control: 'the head control',
  high_load: 'a heavy load or pull-down',
  low_charge: 'a low charge or a restriction',
  reading_fault: 'the reading itself',
};

function percent(f: Figure): string {
  const p = (x: number) => Math.round(x * 100);
  return `${p(f.value)} % (${p(f.lo)}–${p(f.hi)})`;
}

type Told = Pick<EstimateOk, 'riseK' | 'cleanRiseK' | 'conductanceLost' | 'verdict'>;

export type Named = { leading: CauseId; also?: CauseId; next: string };

export function sentenceFor(e: Told, { leading, also, next }: Named, reading: Reading): string {
  const rise = `Head is ${differenceWords(e.riseK.value)} over the air; this unit runs ${differenceWords(e.cleanRiseK.value)} clean.`;
  if (e.verdict === 'clean_it')
    return `${rise} The coil has lost ${percent(e.conductanceLost)} of its conductance: clean it.${alsoFor(also, next)}`;
  if (e.verdict === 'watch')
    return `${rise} It may have lost some, but not beyond what the instruments leave open: read it again next time.`;
  if (e.verdict === 'fine') return `${rise} No loss beyond what the instruments leave open.`;
  if (leading === 'low_charge')
    return `${rise} Signs of a low charge or a restriction, which lowers head and can hide a fouled coil. ${next}`;
  if (leading === 'coil_fouling' && reading.phase === 'after')
    return `${rise} Still high after cleaning: look for another cause, or a coil dirty deep inside.`;
  return `${rise} Before blaming the coil, look at ${CAUSE_LABEL[leading]}. ${next}`;
}

function alsoFor(also: CauseId | undefined, next: string): string {
  if (!also) return '';
  const hides = also === 'low_charge' ? ', which lowers head: the loss may be larger than it looks' : '';
  return ` Signs of ${CAUSE_LABEL[also]} as well${hides}. ${next}`;
}

const WHY: Record<CannotSayReason, string> = {
  no_condensing_reading: 'No head pressure and no clamp on the condenser bend: a rise needs one of them.',
  no_air_reading: 'No air temperature: measure the air entering the coil.',
  not_steady: 'Not running steadily yet: read again after 10 to 15 minutes.',
  head_control: 'In air this cold the head control sets the head, not the coil. Read again in warmer air.',
  water_cooled: 'A water-cooled condenser: air tells nothing of it.',
  out_of_range: 'The reading lies outside what can be computed for this refrigerant.',
  rise_too_small: 'Condensing is too close to the air to tell anything. Was it running under load?',
  impossible_reading: 'The entries cannot all be right: see the questions.',
  unknown_refrigerant: 'No properties for this refrigerant: enter the one on the nameplate.',
  not_converged: 'The sums did not settle for these entries, so no figure is given.',
};

export function cannotSaySentence(reason: CannotSayReason): string {
  return `This reading can’t say. ${WHY[reason]}`;
}
