import type { JobState, JobUrgency } from '../../jobs/states';

/** The customer's own page. It says what is on file and promises nothing. */
export const PAGE_EN = {
  tab: 'Your refrigeration',
  of: (kitchens: number) => (kitchens === 1 ? 'Refrigeration: visits, reports and open work' : `Refrigeration in ${kitchens} kitchens`),
  inOther: 'Español',
  back: 'Back to your page',
  phone: (phone: string) => `Phone ${phone}`,
  visits: {
    heading: 'Next visits',
    none: 'No visit is booked at the moment.',
    line: (day: string, from: string, to: string) => `${day}, ${from} to ${to}`,
    who: (technician: string) => `${technician} comes.`,
    power: 'Units are switched off in turn while coils are cleaned: keep doors closed.',
    suits: 'That suits us',
    other: 'Another time would be better',
    confirmed: 'You confirmed this visit.',
    asked: (when: string) => `You asked for ${when} instead. The shop answers; until then the visit stands as it is.`,
    on: (kitchen: string) => `Visit to ${kitchen}`,
  },
  another: {
    title: 'Another time',
    now: (when: string) => `The visit is booked for ${when}.`,
    free: 'Times that are free',
    none: 'No time is free in the next two weeks. Please phone the shop.',
    note: 'Anything we should know',
    ask: 'Ask for this time',
    choose: 'Choose one of the times.',
    taken: 'That time was taken a moment ago. Choose another.',
    notBooked: 'This visit is no longer booked as it was. Look at your page again.',
  },
  work: {
    heading: 'Open work',
    none: 'No work stands open.',
    since: (day: string) => `since ${day}`,
    state: {
      asked: 'With the office',
      looked_at: 'Looked at; the office decides what comes next',
      quoted: 'Waits for an answer to the quote',
      agreed: 'Agreed; no date yet',
      part_ordered: 'A part is ordered',
      booked: 'Booked',
      done: 'Done',
      declined: 'Declined',
    } satisfies Record<JobState, string>,
    bookedFor: (day: string) => `Booked for ${day}`,
  },
  quotes: {
    heading: 'Quotes that wait for you',
    choose: 'accepted; choose when we come',
    open: (number: string, amount: string) => `Quote ${number}, ${amount}`,
    until: (day: string) => `valid until ${day}`,
  },
  reports: {
    heading: 'Reports',
    none: 'No report was sent yet.',
    open: (day: string) => `Visit of ${day}`,
  },
  calendar: {
    heading: 'Calendar',
    text: 'Subscribe to this address in your calendar, and visits stand in it by themselves. Whoever has the address can read them.',
  },
  ring: {
    heading: 'Ring us about …',
    lead: 'Something is wrong, or you want to know something? Write it here; the office has it in its list at once.',
    danger:
      'Smoke, sparks or a smell of gas: keep everybody away, switch off only what you can reach safely, and call the fire service first.',
    kitchen: 'Kitchen',
    unit: 'Which unit',
    noUnit: 'None of these, or not sure',
    what: 'What is wrong',
    soon: 'How soon',
    urgency: {
      now: 'Food is getting warm, or soon will be',
      today: 'It runs, but not as it should: today if it can be',
      week: 'It can wait a few days',
      next_visit: 'With the next visit is soon enough',
    } satisfies Record<JobUrgency, string>,
    name: 'Your name',
    phone: 'Phone number where you can be reached',
    send: 'Send it to the office',
    sent: 'It is in the office’s list. When somebody rings or comes cannot be said here.',
    alsoRing: (phone: string) =>
      phone
        ? `Food at risk? Ring ${phone} as well: this page wakes nobody.`
        : 'Food at risk? Ring the shop as well: this page wakes nobody.',
    unitGone: 'That unit is no longer on file there. Choose again.',
  },
  errors: {
    what: 'Say in a few words what it is about.',
    urgency: 'Say how soon.',
    name: 'Write your name.',
    phone: 'Write a number where you can be reached.',
    kitchen: 'Choose a kitchen.',
    long: 'That is too long.',
  },
  letter: {
    subject: (shop: string) => `Your page at ${shop}`,
    text: (holder: string, what: string, address: string, until: string) =>
      `${holder},\n\nthis page shows ${what}: next visits, reports, quotes and open work, and you can ask us to ring you.\n${address}\n\nThe address works until ${until}. Whoever has it can read the page: keep it to yourself.`,
    allKitchens: (customer: string) => `every kitchen of ${customer}`,
  },
};
