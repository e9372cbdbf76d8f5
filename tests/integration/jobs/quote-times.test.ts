import { beforeAll, expect, it } from 'vitest';
import { onPage } from '@/lib/features/customer-pages/reads/on-page';
import { pageByLink } from '@/lib/features/customer-pages/reads/page-link';
import { chooseTimeOnPage } from '@/lib/features/customer-pages/verbs/choose-time';
import { makePage } from '@/lib/features/customer-pages/verbs/make-page';
import { afterAccepting } from '@/lib/features/jobs/reads/offered-times';
import { quoteByLink } from '@/lib/features/jobs/reads/quotes';
import { answerQuote } from '@/lib/features/jobs/verbs/answer-quote';
import { chooseTime } from '@/lib/features/jobs/verbs/choose-time';
import { takeStep } from '@/lib/features/jobs/verbs/take-step';
import { hashToken, newToken } from '@/lib/features/links/reads/link-token';
import { useDatabase } from '@/tests/support/database';
import { haveOneUnit, jobRow, visitRow } from '@/tests/support/factories';

const database = useDatabase();
const now = new Date('2026-11-27T15:00:00Z');
const baseUrl = 'http://localhost';
const at = () => ({ db: database.db, now, baseUrl });
let have: Awaited<ReturnType<typeof haveOneUnit>>;
beforeAll(async () => {
  have = await haveOneUnit(database.db, { kitchen: { contactEmail: 'chef@example.org' } });
  await database.db.shopSettings.update({ where: { id: 1 }, data: { email: 'office@larkspur.example' } });
});

/** A job whose quote of an hour and a half was sent, with its link. */
async function quoted(lines: object[] = []) {
  const { db } = database;
  const job = await db.job.create({ data: jobRow(have.unit, { state: 'quoted' }) });
  const token = newToken();
  const labour = { kind: 'labour', what: 'Labour', partNumber: '', quantity: 1.5, unit: 'h', priceCents: 0, taxed: false };
  await db.quote.create({
    data: {
      jobId: job.id, version: 1, lines: { v: 1, lines: [labour, ...lines] }, netCents: 0, taxCents: 0, totalCents: 0, currency: 'USD',
      validUntil: new Date('2026-12-20'), reason: 'Worn out.', sentAt: now, sentTo: 'ilse@example.org', tokenHash: hashToken(token),
    },
  }); // prettier-ignore
  return { jobId: job.id, token };
}
const accept = (token: string) => answerQuote({ db: database.db, now }, { token, answer: 'accepted', name: 'Ilse Braun', note: '' });
async function next(token: string) {
  const quote = await quoteByLink(database.db, token, now);
  return quote && afterAccepting(database.db, quote, now);
}
async function times(token: string) {
  const after = await next(token);
  if (after?.step !== 'choose') throw new Error(`no times: ${after?.step}`);
  return after.times;
}

it('becomes an offer of free times once accepted, and a chosen one is booked, confirmed and told', async () => {
  const { db } = database;
  const { jobId, token } = await quoted();
  expect(await next(token)).toBeNull();
  await expect(chooseTime(at(), { token, startsAt: 1, otherTime: '' })).rejects.toMatchObject({ code: 'conflict' });
  await expect(chooseTime(at(), { token: newToken(), startsAt: 1, otherTime: '' })).rejects.toMatchObject({ code: 'not_found' });
  await accept(token);
  const offered = await times(token);
  expect(offered.length).toBeGreaterThan(2);
  expect(new Set(offered.map((s) => new Date(s.start).toISOString().slice(0, 10))).size).toBeGreaterThan(1);
  const first = offered[0];
  if (!first) throw new Error('nothing offered');
  await expect(chooseTime(at(), { token, startsAt: first.start + 60_000, otherTime: '' })).rejects.toMatchObject({ field: 'startsAt' });
  // Somebody else books that time while the page stands open.
  const taken = await db.visit.create({ data: visitRow(have.kitchen.id, first.technicianId, new Date(first.start), 60) });
  await expect(chooseTime(at(), { token, startsAt: first.start, otherTime: '' })).rejects.toMatchObject({ field: 'startsAt' });
  expect((await times(token)).some((s) => s.start === first.start)).toBe(false);
  await db.visit.update({ where: { id: taken.id }, data: { status: 'cancelled', cancelReason: 'Not needed' } });

  await chooseTime(at(), { token, startsAt: first.start, otherTime: '' });
  const job = await db.job.findUniqueOrThrow({ where: { id: jobId }, include: { visit: { include: { events: true } } } });
  expect(job).toMatchObject({ state: 'booked', visit: { startsAt: new Date(first.start), customerReply: 'confirmed', createdById: null } });
  expect(job.visit && +job.visit.endsAt - +job.visit.startsAt).toBe(90 * 60_000);
  expect(job.visit?.events[0]?.reason).toContain('Ilse Braun');
  expect(await db.jobEvent.findFirst({ where: { jobId, to: 'booked' } })).toMatchObject({ byName: 'Ilse Braun', byUserId: null });
  expect(await db.outboxMessage.count({ where: { kind: 'visit_booked', toEmail: 'chef@example.org' } })).toBe(1);
  expect(await next(token)).toMatchObject({ step: 'booked', startsAt: new Date(first.start) });
  await expect(chooseTime(at(), { token, startsAt: first.start, otherTime: '' })).rejects.toMatchObject({ code: 'conflict' });
});

it('takes another time in words, before the office until one is booked', async () => {
  const { db } = database;
  const { jobId, token } = await quoted();
  await accept(token);
  await chooseTime(at(), { token, otherTime: 'Any Monday before ten' });
  expect(await next(token)).toMatchObject({ step: 'choose', asked: 'Any Monday before ten' });
  const letter = await db.outboxMessage.findFirstOrThrow({ where: { kind: 'customer_call' } });
  expect(letter).toMatchObject({ toEmail: 'office@larkspur.example', text: expect.stringContaining('Any Monday before ten') });
  // Looked at once more meanwhile, it is the office's to go on with.
  await db.job.update({ where: { id: jobId }, data: { state: 'looked_at' } });
  expect(await next(token)).toEqual({ step: 'office' });
  await db.job.update({ where: { id: jobId }, data: { state: 'agreed' } });
  // A part that is found wanting meanwhile does not make the office forget it.
  const office = { userId: have.person.id, role: 'dispatcher' as const };
  await takeStep({ db, actor: office, now }, { jobId, step: 'part_wanted', reason: '', from: 'agreed' });
  await takeStep({ db, actor: office, now }, { jobId, step: 'part_ordered', reason: '', from: 'agreed' });
  expect((await db.job.findUniqueOrThrow({ where: { id: jobId } })).timeAsked).toBe('Any Monday before ten');
  await takeStep({ db, actor: office, now }, { jobId, step: 'part_here', reason: '', from: 'part_ordered' });
  const [first] = await times(token);
  await chooseTime(at(), { token, startsAt: first?.start, otherTime: '' });
  expect((await db.job.findUniqueOrThrow({ where: { id: jobId } })).timeAsked).toBe('');
  await expect(db.job.update({ where: { id: jobId }, data: { timeAsked: 'x' } })).rejects.toThrow(/job_time_asked/);
});

it('offers nothing while a part is wanted, and writes once it is here', async () => {
  const { db } = database;
  await db.part.create({ data: { number: 'DR-3', name: 'Drier', priceCents: 100 } });
  const { jobId, token } = await quoted([
    { kind: 'part', what: 'Drier', partNumber: 'DR-3', quantity: 1, unit: 'pcs', priceCents: 0, taxed: false },
  ]);
  await accept(token);
  expect(await next(token)).toEqual({ step: 'part' });
  const office = { userId: have.person.id, role: 'dispatcher' as const };
  await db.customer.update({ where: { id: have.customer.id }, data: { language: 'es' } });
  await takeStep({ db, actor: office, now }, { jobId, step: 'part_here', reason: '', from: 'agreed' });
  const letter = await db.outboxMessage.findFirstOrThrow({ where: { kind: 'quote_sent', text: { contains: 'carta del' } } });
  expect(letter).toMatchObject({ toEmail: 'ilse@example.org', text: expect.stringContaining('carta del 27 nov 2026') });
  expect(letter.subject).toBe(`El repuesto ya está aquí: elija una hora para ${have.customer.name}, ${have.kitchen.name}`);
  expect(letter.text.split('\n').at(-1)).toBe('Test shop · office@larkspur.example');
  await db.customer.update({ where: { id: have.customer.id }, data: { language: 'en' } });
  expect((await times(token)).length).toBeGreaterThan(0);
});

it('is offered on the customer’s own page to whoever answers quotes there, and to nobody else', async () => {
  const { db } = database;
  const { jobId, token } = await quoted();
  await accept(token);
  const page = async (answersQuotes: boolean) =>
    (
      await makePage(
        { ...at(), actor: null },
        { customerId: have.customer.id, holder: 'Rosa Ibarra', toEmail: '', language: 'en', answersQuotes },
      )
    ).link
      .split('/')
      .at(-1) ?? '';
  const [mine, reads] = [await page(true), await page(false)];
  const opened = await pageByLink(db, mine, now);
  const quoteId = (await db.quote.findFirstOrThrow({ where: { jobId } })).id;
  expect(opened && (await onPage(db, opened, now)).quotes.some((q) => q.id === quoteId)).toBe(true);
  const startsAt = (await times(token))[0]?.start;
  const choice = { quoteId, startsAt, otherTime: '' };
  await expect(chooseTimeOnPage(at(), { token: reads, ...choice })).rejects.toMatchObject({ code: 'not_allowed' });
  await expect(chooseTimeOnPage(at(), { token: newToken(), ...choice })).rejects.toMatchObject({ code: 'not_found' });
  await chooseTimeOnPage(at(), { token: mine, ...choice });
  expect((await db.job.findUniqueOrThrow({ where: { id: jobId } })).state).toBe('booked');
});
