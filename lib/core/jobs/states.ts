/** A job: what a finding, a call or the office asks for, until it is done or declined. One thing, from the first word to the last. */

export const JOB_STATES = ['asked', 'looked_at', 'quoted', 'agreed', 'part_ordered', 'booked', 'done', 'declined'] as const;
export type JobState = (typeof JOB_STATES)[number];

export const JOB_STATE_LABEL: Record<JobState, string> = {
  asked: 'Asked for',
  looked_at: 'Looked at',
  quoted: 'Quote sent',
  agreed: 'Agreed',
  part_ordered: 'Part ordered',
  booked: 'Booked',
  done: 'Done',
  declined: 'Declined',
};

/** Who or what the next move hangs on. Every open job waits for exactly one of these. */
export const JOB_WAITS = ['office', 'quote', 'customer', 'part', 'booking', 'visit'] as const;
export type JobWait = (typeof JOB_WAITS)[number];

export const JOB_WAIT_LABEL: Record<JobWait, string> = {
  office: 'A decision in the office',
  quote: 'A quote',
  customer: 'The customer’s answer',
  part: 'A part',
  booking: 'A date',
  visit: 'The visit',
};

export const JOB_SOURCES = ['finding', 'call', 'office', 'customer'] as const;
export type JobSource = (typeof JOB_SOURCES)[number];
export const JOB_SOURCE_LABEL: Record<JobSource, string> = {
  finding: 'Found at a visit',
  call: 'The kitchen rang',
  office: 'From the office',
  customer: 'From the customer’s page',
};

/** In the order of how long food can wait. */
export const JOB_URGENCIES = ['now', 'today', 'week', 'next_visit'] as const;
export type JobUrgency = (typeof JOB_URGENCIES)[number];
export const JOB_URGENCY_LABEL: Record<JobUrgency, string> = {
  now: 'Now: food at risk',
  today: 'Today',
  week: 'Within the week',
  next_visit: 'With the next visit',
};

/** From where a job may go on to where. Nothing leaves `done`; a declined job may be asked for again. */
const ONWARD: Record<JobState, readonly JobState[]> = {
  asked: ['looked_at', 'quoted', 'agreed', 'part_ordered', 'booked', 'done', 'declined'],
  looked_at: ['quoted', 'agreed', 'part_ordered', 'booked', 'done', 'declined'],
  quoted: ['quoted', 'agreed', 'declined', 'looked_at', 'done'],
  agreed: ['part_ordered', 'booked', 'done', 'declined', 'quoted'],
  part_ordered: ['agreed', 'booked', 'done', 'declined'],
  // A visit that was cancelled, or that only looked, sets a booked job back.
  booked: ['asked', 'looked_at', 'quoted', 'agreed', 'part_ordered', 'booked', 'done', 'declined'],
  done: [],
  declined: ['asked'],
};

export const isOpen = (state: JobState): boolean => state !== 'done' && state !== 'declined';

/** A visit can be found for it: open, and not waiting for a price to be agreed. */
export const isBookable = ({ state }: { state: JobState }): boolean => isOpen(state) && state !== 'quoted';

export const canGo = (from: JobState, to: JobState): boolean => ONWARD[from].includes(to);

export type JobStand = { state: JobState; needsQuote: boolean; partsWanted: boolean };

/** What an open job waits for; null once it is done or declined. */
export function waitsFor({ state, needsQuote, partsWanted }: JobStand): JobWait | null {
  switch (state) {
    case 'asked':
      return needsQuote ? 'quote' : 'booking';
    case 'looked_at':
      return needsQuote ? 'quote' : 'office';
    case 'quoted':
      return 'customer';
    case 'agreed':
      return partsWanted ? 'part' : 'booking';
    case 'part_ordered':
      return 'part';
    case 'booked':
      return 'visit';
    case 'done':
    case 'declined':
      return null;
  }
}
