/** A visit as its letters, its page and its calendar tell of it. */
export const VISIT_EN = {
  subject: { booked: 'Visit booked', moved: 'Visit moved', cancelled: 'Visit cancelled', reminder: 'Visit tomorrow' },
  headline: (news: string, kitchen: string, when: string) => `${news}: ${kitchen}, ${when}`,
  when: (day: string, from: string, to: string) => `${day}, ${from} to ${to}`,
  comes: (technician: string, shop: string, kitchen: string, when: string) => `${technician} of ${shop} comes to ${kitchen}: ${when}.`,
  tomorrow: (sentence: string) => `Tomorrow: ${sentence}`,
  cancelled: (kitchen: string, when: string, reason: string) =>
    `Our visit to ${kitchen} (${when}) is cancelled.${reason ? ` Reason: ${reason.replace(/\.$/, '')}.` : ''}`,
  lookAfter: 'We look after:',
  work: (unit: string, task: string) => `${unit}: ${task}`,
  power: 'Units are switched off in turn while their coils are cleaned; keep doors closed and food cold meanwhile.',
  answer: (address: string) => `Confirm, or ask for another time: ${address}`,
  /** Where the shop has no name on file yet. */
  someShop: 'Your refrigeration shop',
  thanks: { confirmed: 'Confirmed. See you then.', other_time: 'Passed on. The shop will move the visit and write again.' },
  asked: 'You asked for another time.',
  noneFree: (phone: string) => `No free time in the next two weeks. ${phone ? `Phone ${phone}.` : 'Phone the shop.'}`,
  errors: { choose: 'Choose one of the times.', long: 'That is too long.', two: 'Choose one of the two.' },
  calendar: {
    name: (whose: string) => `${whose}, refrigeration visits`,
    visit: (technician: string) => `Refrigeration visit, ${technician}`,
  },
};
