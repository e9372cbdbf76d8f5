import type { Judged } from '../verdict';
import type { CannotSayReason, Cause, EstimateOk, Figure, Reading } from '../types';
import { differenceWords } from './both-units';
import { CAUSE_LABEL, likelyWords } from './causes';

function percent(f: Figure): string {
  const p = (x: number) => Math.round(x * 100);
  return `${p(f.value)} % (${p(f.lo)}–${p(f.hi)})`;
}

type Sayable = Pick<EstimateOk, 'riseK' | 'cleanRiseK' | 'conductanceLost'>;

/** The one verdict in words: what was seen, what it most likely is, and what to do or look at next. */
export function sentenceFor(e: Sayable, j: Judged & { next: string }, causes: readonly Cause[], reading: Reading): string {
  const rise = `Head is ${differenceWords(e.riseK.value)} over the air; this unit runs ${differenceWords(e.cleanRiseK.value)} clean.`;
  const most = `at most ${Math.round(e.conductanceLost.hi * 100)} % of the heat it gives off clean`;
  if (j.verdict === 'clean_it')
    return `${rise} Degree for degree the coil gives off ${percent(e.conductanceLost)} less heat than clean: clean it.${besides(j)}`;
  if (j.verdict === 'watch') return `${rise} The coil may have lost some, ${most}: read it again next time.`;
  if (j.verdict === 'fine') return `${rise} No loss to be seen: ${most}.`;
  if (j.verdict === 'look_first') return `${rise} ${candidates(causes)}. Look first: ${j.next}`;
  if (j.leading === 'coil_fouling' && reading.phase === 'after')
    return `${rise} Still high after cleaning: look for another cause, or a coil dirty deep inside. ${j.next}`;
  if (j.leading === 'low_charge')
    return `${rise} Signs of a low charge or a restriction, which lowers head and can hide a fouled coil. ${j.next}`;
  const likely = likelyWords(causes.find((c) => c.id === j.leading)?.weight ?? 0);
  return `${rise} Before blaming the coil, look at ${CAUSE_LABEL[j.leading]}: ${likely} that. ${j.next}`;
}

/** "It is probably a fouled coil, possibly the condenser fan". */
export function candidates(causes: readonly Cause[]): string {
  const [first, second] = causes.filter((c) => c.id !== 'nothing' && c.weight > 0.08);
  if (!first) return 'Something is off';
  const other = second
    ? `, ${likelyWords(second.weight) === likelyWords(first.weight) ? 'or' : likelyWords(second.weight)} ${CAUSE_LABEL[second.id]}`
    : '';
  return `It is ${likelyWords(first.weight)} ${CAUSE_LABEL[first.id]}${other}`;
}

function besides({ also, next }: Judged & { next: string }): string {
  if (!also) return '';
  const hides = also === 'low_charge' ? ', which lowers head: the loss may be larger than it looks' : '';
  return ` Signs of ${CAUSE_LABEL[also]} as well${hides}. ${next}`;
}

const WHY: Record<CannotSayReason, string> = {
  no_condensing_reading: 'No head pressure and no clamp on the condenser bend: a rise needs one of them.',
  no_air_reading: 'No air temperature: measure the air entering the coil.',
  not_steady: 'Not running steadily yet: read again after 10 to 15 minutes.',
  head_control: 'In air this cold the head control sets the head, not the coil. Read again in warmer air.',
  water_cooled: 'A water-cooled condenser is not estimated: compare condensing with the water leaving it.',
  above_critical: 'CO₂ above its critical point does not condense: not estimated. Compare the gas leaving its cooler with the air.',
  out_of_range: 'Outside what can be computed. Where head is that high, look at condenser fan, air and coil first.',
  rise_too_small: 'Too close to the air to tell. Was it running under load?',
  impossible_reading: 'The entries cannot all be right: see the questions.',
  unknown_refrigerant: 'The refrigerant is not known, or no numbers for it: enter the one on the nameplate.',
  not_converged: 'The sums did not settle.',
};

export function cannotSaySentence(reason: CannotSayReason): string {
  return `This reading can’t say. ${WHY[reason]}`;
}
