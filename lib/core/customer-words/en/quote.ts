import { QUOTE_LINE_LABEL, type QuoteLineKind } from '../../jobs/quote';

/** A quote as its page shows it. What it is about is in the words of whoever wrote it. */
export const QUOTE_EN = {
  title: (number: string) => `Quote ${number}`,
  tab: 'Your quote',
  table: 'What it comes to',
  what: 'What',
  howMany: 'How many',
  price: 'Price',
  amount: 'Amount',
  kind: QUOTE_LINE_LABEL as Record<QuoteLineKind, string>,
  /** A unit as the office wrote it: those that the form offers have their own word. */
  unit: (unit: string) => unit,
  picture: (number: number, day: string) => `Picture ${number}, taken ${day}`,
  tax: (percent: number) => `Tax, ${percent} % of what is taxed`,
  inAll: 'In all',
  until: (day: string) => `Valid until ${day}.`,
  pdf: 'As PDF',
  answer: {
    heading: 'Your answer',
    name: 'Your name',
    note: 'Anything we should know',
    accept: 'Accept',
    decline: 'Decline',
    accepted: 'Accepted',
    declined: 'Declined',
    by: (name: string) => `by ${name}.`,
    afterDeclined: 'Thank you for telling us.',
    notYours: 'Whoever accepts quotes for you has a link of their own. Ask the shop if that should be you.',
    twice: 'This quote was answered already. Phone the shop to change it.',
    nameMissing: 'Write your name.',
    long: 'That is too long.',
    two: 'Choose one of the two.',
  },
  letter: {
    subject: (kitchen: string, what: string) => `Quote for ${kitchen}: ${what}`,
    total: (total: string, until: string) => `${total} in all, valid until ${until}.`,
    open: (address: string) => `Read it, and accept or decline: ${address}`,
  },
  /** The letter once the part that an accepted quote waited for is here. */
  partHere: {
    subject: (kitchen: string) => `The part is here: choose a time for ${kitchen}`,
    here: (what: string) => `The part for “${what}” is here.`,
    open: (day: string) => `Open the link in our letter of ${day} again: it shows the times that are free now, and choosing one books it.`,
  },
  /** What comes after it was accepted. */
  time: {
    heading: 'When shall we come?',
    lead: 'These times are free. Choose one, and it is booked.',
    book: 'Book this time',
    none: 'No time is free in the next two weeks. Write when it would suit you.',
    other: 'None of these suits? Write when it would',
    ask: 'Ask for another time',
    asked: (text: string) => `You asked for: “${text}” We answer; a time above still books it.`,
    booked: (when: string) => `Booked for ${when}.`,
    part: 'A part has to be got first. Once it is here, this page shows the times that are free.',
    office: 'We call you about what comes next.',
    choose: 'Choose one of the times, or write when it would suit you.',
    long: 'That is too long.',
    taken: 'That time was taken a moment ago. Choose another.',
    notNow: 'This work does not wait for a time any more. Load the page again to see where it stands.',
  },
};
