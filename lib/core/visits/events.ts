/** What can happen to a visit, in the words of its history. */
export const VISIT_EVENT_LABEL = {
  booked: 'Booked',
  moved: 'Moved',
  reassigned: 'Given to someone else',
  cancelled: 'Cancelled',
  changed: 'Changed',
  restored: 'Booked again after all',
  started: 'Started',
  closed: 'Closed',
  revised: 'Estimates and rules brought up to date',
  not_revised: 'Closed, but its estimates and rules could not be brought up to date',
  confirmed: 'Confirmed by the kitchen',
  asked_other_time: 'The kitchen asks for another time',
} as const;
/** What a kitchen can answer to its visit. */
export const CUSTOMER_REPLIES = ['confirmed', 'other_time'] as const;
export type CustomerReply = (typeof CUSTOMER_REPLIES)[number];
export type VisitEventKind = keyof typeof VISIT_EVENT_LABEL;
