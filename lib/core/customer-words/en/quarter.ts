const units = (read: number, of: number) => (read === of ? '' : ` That is of ${read} of ${of} units; the others were not read.`);
const visits = (n: number) => (n === 1 ? 'one visit' : `${n} visits`);

/** The summary of a quarter. */
export const QUARTER_EN = {
  name: 'Summary of the quarter',
  title: (customer: string, months: string) => `${customer}, ${months}`,
  lead: (many: number, kitchens: number) =>
    many === 0
      ? 'No visit fell into this quarter.'
      : `There ${many === 1 ? 'was' : 'were'} ${visits(many)} ${kitchens === 1 ? 'to your kitchen' : `to ${kitchens} kitchens`}.`,
  open: (jobs: number) => (jobs === 1 ? 'One thing needs work; it stands below.' : `${jobs} things need work; they stand below.`),
  nothingOpen: 'No work stands open.',
  costing: (figure: string, read: number, of: number) =>
    `As we met it, dirt was costing about ${figure} of electricity in 30 days.${units(read, of)}`,
  costingAtMost: (most: string, read: number, of: number) =>
    `As we met it, dirt was costing at most ${most} of electricity in 30 days, perhaps nothing.${units(read, of)}`,
  visits: (days: string[]) => `${days.length === 1 ? 'Visit' : 'Visits'}: ${days.join('; ')}.`,
  noVisit: 'No visit in this quarter.',
  nextVisit: (day: string) => `The next visit is booked for ${day}.`,
  finished: (jobs: number) => (jobs === 1 ? 'One repair was finished.' : `${jobs} repairs were finished.`),
  notReached: (day: string) => `${day}: we could not get to it.`,
  allSound: 'All that was looked at was in order.',
  notSeen: 'Not looked at in this quarter.',
  unitCosting: (day: string, figure: string) => `On ${day} the dirt was costing about ${figure} of electricity in 30 days.`,
  unitAtMost: (day: string, most: string) => `On ${day} the dirt was costing at most ${most} of electricity in 30 days, perhaps nothing.`,
  trend: {
    faster: (before: number, last: number) =>
      `The coil fouls faster than before: judged after ${last} days, and after ${before} the time before.`,
    slower: (before: number, last: number) =>
      `The coil fouls more slowly than before: judged after ${last} days, and after ${before} the time before.`,
    same: (before: number, last: number) => `The coil fouls as it did: alike after ${last} days and after ${before} the time before.`,
    clean: (before: number, last: number) => `The coil was found clean after ${last} days, as after ${before} the time before.`,
    cantSay: 'Whether the coil fouls faster or slower than before cannot be said yet.',
  },
  headings: { work: 'Work to come', units: 'Unit by unit' },
  letter: {
    subject: (customer: string, months: string) => `Your refrigeration, ${months}: ${customer}`,
    text: (customer: string, months: string, address: string, until: string) =>
      `What was found and done in the kitchens of ${customer}, ${months}:\n${address}\n\nThe address works until ${until}. Whoever has it can read the summary.`,
  },
};
