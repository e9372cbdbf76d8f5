import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { wordsIn } from '@/lib/core/customer-words';
import { onPage, pictureOnPage, quoteOnPage, reportOnPage, visitOnPage } from '@/lib/features/customer-pages/reads/on-page';
import { notePageOpening, pageByCalendar, pageByLink, pagesOf, type OpenPage } from '@/lib/features/customer-pages/reads/page-link';
import { answerQuoteOnPage } from '@/lib/features/customer-pages/verbs/answer-quote';
import { answerVisit } from '@/lib/features/customer-pages/verbs/answer-visit';
import { askToBeRung } from '@/lib/features/customer-pages/verbs/ask-to-be-rung';
import { makePage, revokePage } from '@/lib/features/customer-pages/verbs/make-page';
import { paperOnPage, pictureOfPage } from '@/lib/features/customer-pages/verbs/open-on-page';
import { readFeed } from '@/lib/features/feeds/verbs/read-feed';
import { openJobLines } from '@/lib/features/jobs/reads/lists';
import { calendarToken } from '@/lib/features/links/reads/link-token';
import { officeFrame } from '@/lib/features/shop/reads/frame';
import { askedOtherTime } from '@/lib/features/visits/reads/asked-other-time';
import { freeSlotsForVisit } from '@/lib/features/visits/reads/free-slots';
import { useDatabase } from '../../support/database';
import { haveOneUnit, jobRow, kitchenRow, unitRow, visitRow } from '../../support/factories';
import { havePicture, picturesIn } from '@/tests/support/pictures';

const database = useDatabase();
const now = new Date('2026-11-27T15:00:00Z');
const later = (hours: number) => new Date(now.getTime() + hours * 3_600_000);
const baseUrl = 'https://shop.example';
const DEAD = { code: 'not_found' };

/** A kitchen with a booked visit, a report that was sent with a picture, and an open quote. */
async function filled(kitchenId: string, technicianId: string, unit: { id: string; kitchenId: string }, hour: number) {
  const { db } = database;
  const visit = await db.visit.create({ data: visitRow(kitchenId, technicianId, later(hour), 60) });
  const past = await db.visit.create({
    data: { ...visitRow(kitchenId, technicianId, later(-hour), 60), status: 'done', closedAt: later(-hour + 1) },
  });
  await db.reportSent.create({
    data: { tokenHash: randomUUID(), visitId: past.id, language: 'en', toEmail: 'a@b.example', createdAt: now, expiresAt: later(24) },
  });
  const file = await havePicture(db, new Uint8Array([1]), { sha256: randomUUID() });
  await db.photo.create({
    data: { id: randomUUID(), visitId: past.id, unitId: unit.id, takenAt: now, sha256: file.sha256, fileId: file.id },
  });
  const job = await db.job.create({ data: jobRow(unit, { state: 'quoted' }) });
  const quote = await db.quote.create({
    data: {
      jobId: job.id, version: 1, lines: { v: 1, lines: [] }, netCents: 41_000, taxCents: 0, totalCents: 41_000, currency: 'USD',
      validUntil: new Date('2026-12-20'), reason: 'Worn out.', sentAt: now, tokenHash: randomUUID(),
    },
  }); // prettier-ignore
  return { visit: visit.id, past: past.id, file: file.id, quote: quote.id, job: job.id };
}
type Filled = Awaited<ReturnType<typeof filled>>;

let first: Awaited<ReturnType<typeof haveOneUnit>>;
let second: { id: string };
let own: Filled;
let sister: Filled;
let foreign: Filled;
beforeAll(async () => {
  const { db } = database;
  first = await haveOneUnit(db, { kitchen: { name: 'Mill Street' }, person: { name: 'Tova Lind' } });
  second = await db.kitchen.create({ data: kitchenRow(first.customer.id, { name: 'Quay' }) });
  const there = await db.unit.create({ data: unitRow(second.id) });
  const other = await haveOneUnit(db, { kitchen: { name: 'Somebody Else' } });
  await db.shopSettings.update({ where: { id: 1 }, data: { email: 'office@larkspur.example', phone: '555 0100' } });
  own = await filled(first.kitchen.id, first.person.id, first.unit, 48);
  sister = await filled(second.id, first.person.id, there, 72);
  foreign = await filled(other.kitchen.id, other.person.id, other.unit, 48);
});

const ctx = () => ({ db: database.db, actor: null, now, baseUrl });
const make = async (over: Partial<Parameters<typeof makePage>[1]> = {}) => {
  const input = {
    customerId: first.customer.id,
    holder: 'Rosa Ibarra',
    toEmail: '',
    language: 'en' as const,
    answersQuotes: false,
    ...over,
  };
  return (await makePage(ctx(), input)).link.split('/').at(-1) ?? '';
};
const opened = async (token: string): Promise<OpenPage> => {
  const page = await pageByLink(database.db, token, now);
  if (!page) throw new Error('It does not open.');
  return page;
};

describe('a link to a customer’s page', () => {
  it('opens what belongs to its kitchens and nothing of another’s', async () => {
    const { db } = database;
    const manager = await opened(await make());
    const chef = await opened(await make({ kitchenId: first.kitchen.id }));
    const seen = async (page: OpenPage) => {
      const { visits, jobs, quotes, reports } = await onPage(db, page, now);
      return [visits, jobs, quotes, reports].map((list) => list.map((x) => x.id).sort());
    };
    const both = (key: keyof Filled) => [own[key], sister[key]].sort();
    expect(await seen(manager)).toEqual([both('visit'), both('job'), both('quote'), both('past')]);
    expect(await seen(chef)).toEqual([[own.visit], [own.job], [own.quote], [own.past]]);
    for (const of of [sister, foreign]) {
      expect(await visitOnPage(db, chef, of.visit, now)).toBeNull();
      expect(await reportOnPage(db, chef, of.past)).toBe(false);
      expect(await pictureOnPage(db, chef, of.file)).toBeNull();
      expect(await quoteOnPage(db, chef, of.quote, now)).toBeNull();
    }
    expect(await quoteOnPage(db, manager, sister.quote, now)).toMatchObject({ totalCents: 41_000 });
    expect(await pictureOnPage(db, manager, foreign.file)).toBeNull();
  });

  it('is refused alike when tampered with, expired, taken back, or asking for another kitchen’s', async () => {
    const { db } = database;
    const token = await make({ kitchenId: first.kitchen.id });
    const gone = await make();
    const page = await opened(gone);
    await revokePage(ctx(), { id: page.id });
    await expect(revokePage(ctx(), { id: page.id })).rejects.toMatchObject({ code: 'conflict' });
    const flipped = `${token.startsWith('A') ? 'B' : 'A'}${token.slice(1)}`;
    const said = new Set<string>();
    const pictures = picturesIn(db);
    const note = async (work: Promise<unknown>) => said.add(await work.then(() => 'opened', (e: Error) => `${e.name}: ${e.message}`)); // prettier-ignore
    for (const bad of [flipped, gone, `${token}a`, '', calendarToken(token)]) {
      expect(await pageByLink(db, bad, now)).toBeNull();
      await note(paperOnPage({ db, now, pictures }, { token: bad, visitId: own.past, language: undefined }));
      await note(pictureOfPage({ db, now, pictures }, { token: bad, fileId: own.file }));
      await note(answerVisit({ db, now }, { token: bad, visitId: own.visit, answer: 'confirmed', note: '' }));
    }
    expect(await pageByLink(db, token, later(366 * 24))).toBeNull();
    await note(paperOnPage({ db, now: later(366 * 24), pictures }, { token, visitId: own.past, language: undefined }));
    await note(paperOnPage({ db, now, pictures }, { token, visitId: sister.past, language: undefined }));
    await note(pictureOfPage({ db, now, pictures }, { token, fileId: foreign.file }));
    expect([...said]).toEqual([`AppError: ${wordsIn('en').deadLink.text} ${wordsIn('es').deadLink.text}`]);
    expect(JSON.stringify(await db.customerPage.findMany())).not.toContain(token);
  });

  it('has a calendar address of its own, which opens no page and ends with it', async () => {
    const token = await make({ kitchenId: second.id });
    const calendar = calendarToken(token);
    const ics = await readFeed({ db: database.db, now }, calendar);
    expect(ics).toContain(sister.visit);
    expect(ics).not.toContain(own.visit);
    expect(ics).not.toContain(foreign.visit);
    expect(await readFeed({ db: database.db, now }, calendarToken(await make()))).toContain(own.visit);
    expect(await pageByLink(database.db, calendar, now)).toBeNull();
    const page = await pageByCalendar(database.db, calendar, now);
    await revokePage(ctx(), { id: page?.id ?? '' });
    await expect(readFeed({ db: database.db, now }, calendar)).rejects.toMatchObject(DEAD);
  });

  it('is sent in the language of whom it is for, and its openings are counted', async () => {
    const token = await make({ toEmail: 'rosa@lantern.example', language: 'es', kitchenId: second.id });
    const letter = await database.db.outboxMessage.findFirstOrThrow({ where: { kind: 'customer_page' } });
    expect(letter).toMatchObject({ toEmail: 'rosa@lantern.example', subject: 'Su página en Test shop' });
    expect(letter.text).toContain(`${baseUrl}/yours/${token}`);
    const { id } = await opened(token);
    await notePageOpening(database.db, id, later(1));
    await notePageOpening(database.db, id, later(2));
    const [page] = (await pagesOf(database.db, first.customer.id)).filter((p) => p.id === id);
    expect(page).toMatchObject({ openings: 2, openedAt: later(1), lastOpenedAt: later(2), kitchen: { name: 'Quay' } });
  });

  it('cannot be of a kitchen of another customer, even past the program', async () => {
    const other = await haveOneUnit(database.db);
    await expect(make({ kitchenId: other.kitchen.id })).rejects.toMatchObject({ code: 'invalid', field: 'kitchenId' });
    const row = { tokenHash: 'a', feedHash: 'b', customerId: first.customer.id, kitchenId: other.kitchen.id, holder: 'x', language: 'en' as const, createdAt: now, expiresAt: later(1) }; // prettier-ignore
    await expect(database.db.customerPage.create({ data: row })).rejects.toThrow(/CustomerPage_kitchenId_customerId_fkey/);
  });
});

describe('on the page', () => {
  it('a visit is confirmed, or one of its free times asked for, as by its own link', async () => {
    const { db } = database;
    const token = await make({ kitchenId: first.kitchen.id });
    await answerVisit({ db, now }, { token, visitId: own.visit, answer: 'confirmed', note: '' });
    expect(await db.visit.findUniqueOrThrow({ where: { id: own.visit } })).toMatchObject({ customerReply: 'confirmed' });
    const startsAt = (await freeSlotsForVisit(db, own.visit, now))[1]?.start ?? 0;
    await answerVisit({ db, now }, { token, visitId: own.visit, answer: 'other_time', startsAt, note: 'After lunch' });
    expect(await askedOtherTime(db, now)).toMatchObject([{ id: own.visit, asksFor: startsAt, note: 'After lunch' }]);
    const taken = answerVisit({ db, now }, { token, visitId: own.visit, answer: 'other_time', startsAt: startsAt + 1, note: '' });
    await expect(taken).rejects.toMatchObject({ code: 'conflict', field: 'startsAt' });
    for (const visitId of [sister.visit, foreign.visit])
      await expect(answerVisit({ db, now }, { token, visitId, answer: 'confirmed', note: '' })).rejects.toMatchObject({ code: 'conflict' });
    expect(await db.visit.findUniqueOrThrow({ where: { id: sister.visit } })).toMatchObject({ customerReply: null });
  });

  it('"ring us" is a job on the office’s list at once and a letter to the shop, once however often it is sent', async () => {
    const { db } = database;
    const token = await make({ language: 'es' });
    const asked = {
      token, once: randomUUID(), kitchenId: first.kitchen.id, unitId: first.unit.id, what: 'Gotea agua debajo',
      urgency: 'now' as const, name: 'Rosa', phone: '555 0142',
    }; // prettier-ignore
    const before = (await officeFrame(db, now)).asked;
    await Promise.all([askToBeRung(ctx(), asked), askToBeRung(ctx(), asked)]);
    await askToBeRung(ctx(), asked);
    expect((await officeFrame(db, now)).asked).toBe(before + 1);
    const line = (await openJobLines(db)).find((j) => j.id === asked.once);
    expect(line).toMatchObject({
      source: 'customer',
      urgency: 'now',
      what: 'Gotea agua debajo',
      callerPhone: '555 0142',
      units: [{ id: first.unit.id }],
    });
    expect(await db.outboxMessage.findMany({ where: { kind: 'customer_call' } })).toMatchObject([{ toEmail: 'office@larkspur.example' }]);
    expect((await onPage(db, await opened(token), now)).jobs[0]).toMatchObject({ id: asked.once, state: 'asked' });
    const elsewhere = (await db.kitchen.findFirstOrThrow({ where: { name: 'Somebody Else' } })).id;
    await expect(askToBeRung(ctx(), { ...asked, once: randomUUID(), kitchenId: elsewhere })).rejects.toMatchObject({ code: 'invalid' });
  });

  it('a quote is accepted by whoever may, once, and by nobody else', async () => {
    const { db } = database;
    const chef = await make({ kitchenId: first.kitchen.id });
    const manager = await make({ answersQuotes: true });
    const say = (token: string, quoteId: string) =>
      answerQuoteOnPage({ db, now }, { token, quoteId, answer: 'accepted', name: 'Rosa Ibarra', note: '' });
    await expect(say(chef, own.quote)).rejects.toMatchObject({ code: 'not_allowed' });
    await expect(say(manager, foreign.quote)).rejects.toMatchObject(DEAD);
    await say(manager, own.quote);
    await expect(say(manager, own.quote)).rejects.toMatchObject({ code: 'conflict' });
    expect(await db.job.findUniqueOrThrow({ where: { id: own.job } })).toMatchObject({ state: 'agreed' });
    // Accepted, it waits for a time to be chosen; the other still for an answer.
    const waiting = (await onPage(db, await opened(manager), now)).quotes.map((q) => [q.id, q.answeredAt !== null]);
    expect(waiting.sort()).toEqual(
      [
        [own.quote, true],
        [sister.quote, false],
      ].sort(),
    );
  });
});
