import type { Urgency } from '../entries/entries';
import type { JobUrgency } from './states';

/** How soon work is wanted, as a tablet says it and as a job keeps it. "Quote first" is no urgency but a wish. */
export type Soon = { urgency: JobUrgency; needsQuote: boolean };

const KEPT: Record<Urgency, Soon> = {
  now: { urgency: 'now', needsQuote: false },
  soon: { urgency: 'week', needsQuote: false },
  next: { urgency: 'next_visit', needsQuote: false },
  quote: { urgency: 'next_visit', needsQuote: true },
};
const SAID: Record<JobUrgency, Urgency> = { now: 'now', today: 'soon', week: 'soon', next_visit: 'next' };

export const soonOf = (said: Urgency): Soon => KEPT[said];
export const urgencySaid = ({ urgency, needsQuote }: Soon): Urgency => (needsQuote ? 'quote' : SAID[urgency]);
