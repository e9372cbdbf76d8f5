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
    afterAccepted: 'We call to find a time.',
    afterDeclined: 'Thank you for telling us.',
    notYours: 'Whoever accepts quotes for you has a link of their own. Ask the shop if that should be you.',
    twice: 'This quote was answered already. Phone the shop to change it.',
    nameMissing: 'Write your name.',
  },
};
