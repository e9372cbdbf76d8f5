import { addDays, todayIn } from '../../../lib/core/calendar';
import { coveredUntil } from '../../../lib/core/parts';
import { quoteSums, type JobState, type JobUrgency, type QuoteLine } from '../../../lib/core/jobs';
import { RandomStream } from '../../../lib/core/numerics/random';
import { STORED_QUOTE } from '../../../lib/database/stored/quotes';
import type { Prisma } from '../../../lib/database/generated/client';
import { CITY } from '../shop/kitchens';
import type { World } from './world';

type Step = { to: JobState; daysAgo: number; reason: string; byName?: string };
type Story = {
  kitchen: string;
  unit: string;
  what: string;
  urgency: JobUrgency;
  source: 'call' | 'office';
  caller?: string;
  daysAgo: number;
  needsQuote?: boolean;
  partsWanted?: boolean;
  steps: Step[];
  quote?: {
    lines: (QuoteLine & { partNumber: string })[];
    reason: string;
    sentDaysAgo: number;
    answer?: { as: 'accepted' | 'declined'; daysAgo: number; by: string; note: string };
  };
};

export type JobStories = {
  jobs: (Prisma.JobCreateManyInput & { id: string; unitId: string })[];
  events: Prisma.JobEventCreateManyInput[];
  quotes: Prisma.QuoteCreateManyInput[];
  parts: Prisma.PartCreateManyInput[];
  vans: Prisma.PartInVanCreateManyInput[];
  warranties: Prisma.WarrantyCreateManyInput[];
  outcomes: Prisma.JobOutcomeCreateManyInput[];
  used: Prisma.PartUsedCreateManyInput[];
};

const labour = (quantity: number) => ({
  kind: 'labour' as const,
  what: 'Labour',
  partNumber: '',
  quantity,
  unit: 'h',
  priceCents: 11_800,
  taxed: false,
});
const trip = { kind: 'trip' as const, what: 'Trip', partNumber: '', quantity: 1, unit: 'trip', priceCents: 4500, taxed: false };
const part = (partNumber: string, what: string, priceCents: number, quantity = 1) => ({
  kind: 'part' as const,
  what,
  partNumber,
  quantity,
  unit: 'pcs',
  priceCents,
  taxed: true,
});

const PARTS: [number: string, name: string, cents: number, van: number, shop: number, months: number | null][] = [
  ['DH-120', 'Drain line heater, 120 V', 5280, 0, 0, 12],
  ['DT-10', 'Drain pan tablets, 10 pieces', 1290, 3, 12, null],
  ['FM-9', 'Condenser fan motor, 9 W', 6495, 1, 2, 12],
  ['FM-16', 'Evaporator fan motor, 16 W', 7250, 0, 1, 12],
  ['GK-24', 'Door gasket, 24 × 60 in', 8400, 0, 3, 6],
  ['HG-2', 'Door hinge, spring-loaded, pair', 7700, 0, 1, 12],
  ['TH-3', 'Box thermostat', 9640, 1, 1, 12],
];

const STORIES: Story[] = [
  {
    kitchen: 'Juniper Row', unit: '', what: 'Back kitchen box is at 47 °F since the lunch rush and climbing.', urgency: 'today', source: 'call',
    caller: 'Kitchen manager', daysAgo: 0, steps: [],
  },
  {
    kitchen: 'Dock Street', unit: 'Reach-in by fryer 1', what: 'Door hangs and does not close by itself.', urgency: 'week', source: 'call', caller: 'Night cook',
    daysAgo: 6, needsQuote: true,
    steps: [
      { to: 'looked_at', daysAgo: 5, reason: 'Both hinges worn through; tied shut for now.' },
      { to: 'quoted', daysAgo: 4, reason: 'Version 1' },
    ],
    quote: {
      lines: [labour(1.5), part('HG-2', 'Door hinge, spring-loaded, pair', 7700), trip], sentDaysAgo: 4,
      reason: 'Both hinges are worn through, so the door stays open a finger wide and the box runs all day. New hinges let it close by itself again.',
    },
  },
  {
    kitchen: 'Main kitchen', unit: 'Produce walk-in', what: 'Drain line freezes: its heater is dead.', urgency: 'week', source: 'office', daysAgo: 12, partsWanted: true,
    steps: [
      { to: 'agreed', daysAgo: 11, reason: 'Agreed by telephone: a heater has to go in.' },
      { to: 'part_ordered', daysAgo: 10, reason: 'DH-120 ordered, a week to come.' },
    ],
  },
  {
    kitchen: 'Harbour Hall', unit: 'Fish counter left', what: 'Runs loud; they ask what a new fan motor costs.', urgency: 'next_visit', source: 'call', caller: 'Hall manager', daysAgo: 24,
    needsQuote: true,
    steps: [
      { to: 'quoted', daysAgo: 22, reason: 'Version 1' },
      { to: 'declined', daysAgo: 18, reason: 'The counter goes in spring; it will do until then.', byName: 'Hall manager' },
    ],
    quote: {
      lines: [labour(1), part('FM-16', 'Evaporator fan motor, 16 W', 7250), trip], sentDaysAgo: 22,
      reason: 'The evaporator fan’s bearing is dry and will seize. A new motor takes an hour and keeps the counter cold.',
      answer: { as: 'declined', daysAgo: 18, by: 'Hall manager', note: 'The counter goes in spring; it will do until then.' },
    },
  },
]; // prettier-ignore

/** What the desk has on its lists: a call, a quote that waits, a part on its way, and one declined. Before `now`, however early it is. */
export function jobStories(world: World, now: Date): JobStories {
  const random = new RandomStream(world.seed, 'jobs');
  const stories: JobStories = { jobs: [], events: [], quotes: [], parts: [], vans: [], warranties: [], outcomes: [], used: [] };
  const ago = (days: number, hours = 0) => new Date(now.getTime() - days * 86_400_000 - hours * 3_600_000);
  for (const story of STORIES) {
    const kitchen = world.kitchens.find((k) => k.place.seed.name === story.kitchen);
    const unit = kitchen?.units.find((u) => story.unit === '' || u.row.name === story.unit);
    if (!kitchen || !unit) throw new Error(`No ${story.unit} in ${story.kitchen}.`);
    const id = random.uuid();
    const opened = ago(story.daysAgo, 0.5);
    const last = story.steps.at(-1);
    const closed = last && (last.to === 'declined' || last.to === 'done') ? last : null;
    stories.jobs.push({
      id,
      unitId: String(unit.row.id),
      kitchenId: String(kitchen.place.kitchen.id),
      source: story.source,
      state: last?.to ?? 'asked',
      urgency: story.urgency,
      what: story.what,
      callerName: story.caller ?? '',
      needsQuote: story.needsQuote ?? false,
      partsWanted: story.partsWanted ?? false,
      createdById: world.desk,
      createdAt: opened,
      ...(closed ? { closedAt: ago(closed.daysAgo), closedByName: closed.byName ?? '', closedNote: closed.reason } : {}),
    });
    stories.events.push({ id: random.uuid(), jobId: id, at: opened, kind: 'opened', to: 'asked', byUserId: world.desk });
    story.steps.forEach((s, i) =>
      stories.events.push({
        id: random.uuid(),
        jobId: id,
        at: ago(s.daysAgo),
        kind: 'moved',
        from: story.steps[i - 1]?.to ?? 'asked',
        to: s.to,
        reason: s.reason,
        ...(s.byName ? { byName: s.byName } : { byUserId: world.desk }),
      }),
    );
    if (!story.quote) continue;
    const { lines, reason, sentDaysAgo, answer } = story.quote;
    const { netCents, taxCents, totalCents } = quoteSums(lines, 8.25);
    const sums = { netCents, taxCents, totalCents };
    stories.quotes.push({
      id: random.uuid(),
      jobId: id,
      version: 1,
      lines: STORED_QUOTE.write({ lines }),
      taxPercent: 8.25,
      ...sums,
      currency: 'USD',
      validUntil: new Date(`${addDays(world.today, 30 - sentDaysAgo)}T00:00:00Z`),
      reason,
      createdById: world.desk,
      createdAt: ago(sentDaysAgo, 1),
      sentAt: ago(sentDaysAgo),
      ...(answer ? { answer: answer.as, answeredAt: ago(answer.daysAgo), answeredBy: answer.by, answerNote: answer.note } : {}),
    });
  }
  stories.parts = PARTS.map(([number, name, priceCents, , inShop, warrantyMonths]) => ({
    id: random.uuid(),
    number,
    name,
    priceCents,
    inShop,
    warrantyMonths,
    updatedAt: now,
  }));
  // What lies in the vans lies in one each, in turn.
  stories.vans = PARTS.flatMap(([, , , inVan], i) => {
    const [partId, van] = [stories.parts[i]?.id, world.technicians[i % world.technicians.length]];
    return partId && van?.row.id && inVan > 0 ? [{ partId, technicianId: van.row.id, pieces: inVan }] : [];
  });
  const covered = stories.jobs[2];
  if (covered)
    stories.warranties.push({
      id: random.uuid(),
      unitId: covered.unitId,
      what: 'Compressor',
      until: new Date(`${addDays(world.today, 400)}T00:00:00Z`),
      note: 'The maker’s',
      createdById: world.desk,
      createdAt: ago(300),
    });
  motorPutIn(world, stories, random, now);
  return stories;
}

/** One that was done a while ago at a visit, with a part of the list that is under warranty since. */
function motorPutIn(world: World, stories: JobStories, random: RandomStream, now: Date): void {
  const since = now.getTime() - 40 * 86_400_000;
  const visit = world.out.visits.findLast(
    (v) => v.status === 'done' && v.leftAt && +new Date(v.leftAt) < now.getTime() && +new Date(v.leftAt) > since,
  );
  const seen = visit && world.out.findings.findLast((f) => f.visitId === visit.id);
  const motor = stories.parts.find((p) => p.number === 'FM-9');
  if (!visit?.leftAt || !seen || !motor?.id) return;
  const [id, usedId, at] = [random.uuid(), random.uuid(), new Date(+new Date(visit.leftAt) - 5 * 60_000)];
  const by = visit.technicianId;
  stories.jobs.push({
    id, unitId: seen.unitId, kitchenId: visit.kitchenId, source: 'call', state: 'done', urgency: 'week', what: 'Hums since the weekend.',
    callerName: 'Kitchen manager', createdById: world.desk, createdAt: new Date(at.getTime() - 3 * 86_400_000),
    visitId: visit.id, closedAt: new Date(visit.leftAt), closedById: by, closedNote: 'Done: new condenser fan motor.',
  }); // prettier-ignore
  const event = (more: Omit<Prisma.JobEventCreateManyInput, 'jobId'>) => stories.events.push({ id: random.uuid(), jobId: id, ...more });
  event({ at: new Date(at.getTime() - 3 * 86_400_000), kind: 'opened', to: 'asked', byUserId: world.desk });
  event({
    at: new Date(at.getTime() - 2 * 86_400_000),
    kind: 'moved',
    from: 'asked',
    to: 'booked',
    visitId: visit.id,
    byUserId: world.desk,
  });
  event({
    at: new Date(visit.leftAt),
    kind: 'moved',
    from: 'booked',
    to: 'done',
    reason: 'Done: new condenser fan motor.',
    visitId: visit.id,
    byUserId: by,
  });
  stories.outcomes.push({
    id: random.uuid(),
    visitId: visit.id ?? '',
    jobId: id,
    outcome: 'done',
    note: 'New condenser fan motor',
    at,
    byUserId: by,
  });
  stories.used.push({
    id: usedId,
    visitId: visit.id ?? '',
    unitId: seen.unitId,
    what: motor.name,
    quantity: 1,
    at,
    partId: motor.id,
    place: 'van',
    taken: 1,
  });
  stories.warranties.push({
    id: random.uuid(), unitId: seen.unitId, what: motor.name, until: new Date(`${coveredUntil(todayIn(CITY.timeZone, at.getTime()), motor.warrantyMonths ?? 12)}T00:00:00Z`),
    note: 'Put in new, part FM-9', partUsedId: usedId, createdById: by, createdAt: at,
  }); // prettier-ignore
}
