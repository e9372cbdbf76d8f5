import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { onPage, quarterOnPage, quoteOnPage } from '@/lib/features/customer-pages/reads/on-page';
import { pageByLink, pagesOf, type OpenPage } from '@/lib/features/customer-pages/reads/page-link';
import { askToBeRung } from '@/lib/features/customer-pages/verbs/ask-to-be-rung';
import { makePage, revokePage } from '@/lib/features/customer-pages/verbs/make-page';
import { quarterPaperOnPage } from '@/lib/features/customer-pages/verbs/open-on-page';
import { useDatabase } from '../../support/database';
import { customerRow, haveOneUnit, jobRow, kitchenRow, unitRow, visitRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-11-27T15:00:00Z');
const HOUR = 3_600_000;
const later = (hours: number) => new Date(now.getTime() + hours * HOUR);
const baseUrl = 'https://shop.example';
let on: Awaited<ReturnType<typeof haveOneUnit>>;
let quay: { id: string };
const ctx = () => ({ db: database.db, actor: { userId: on.person.id }, now, baseUrl });
const input = (over: object = {}) => ({
  customerId: on.customer.id, holder: 'Rosa Ibarra', toEmail: '', language: 'en' as const, answersQuotes: false, ...over,
}); // prettier-ignore
const make = async (over: object = {}) => (await makePage(ctx(), input(over))).link.split('/').at(-1) ?? '';
const opened = async (token: string): Promise<OpenPage> => (await pageByLink(database.db, token, now)) ?? expect.fail('It does not open.');

beforeAll(async () => {
  const { db } = database;
  on = await haveOneUnit(db, { kitchen: { name: 'Mill Street' }, unit: { name: 'Freezer' }, person: { name: 'Tova Lind' } });
  quay = await db.kitchen.create({ data: kitchenRow(on.customer.id, { name: 'Quay' }) });
  await db.shopSettings.update({ where: { id: 1 }, data: { name: 'Larkspur Cold', email: 'office@larkspur.example', phone: '555 0100' } });
});

describe('a page is made', () => {
  it('for a year, with who made it for whom written down, and mailed only where there is an address', async () => {
    const { db } = database;
    const made = await makePage(ctx(), input({ kitchenId: quay.id, answersQuotes: true }));
    expect(made).toEqual({ link: expect.stringMatching(/^https:\/\/shop\.example\/yours\/[\w-]{43}$/), mailed: false });
    expect(await db.outboxMessage.count()).toBe(0);
    expect((await makePage(ctx(), input({ toEmail: 'rosa@lantern.example' }))).mailed).toBe(true);
    const letter = await db.outboxMessage.findFirstOrThrow();
    expect(letter).toMatchObject({
      kind: 'customer_page',
      toEmail: 'rosa@lantern.example',
      subject: 'Your page at Larkspur Cold',
      createdAt: now,
    });
    expect(letter.text).toContain(`Rosa Ibarra,\n\nthis page shows every kitchen of ${on.customer.name}:`);
    expect(letter.text).toContain('until Nov 27, 2027');
    expect(letter.text.split('\n').at(-1)).toBe('Larkspur Cold · 555 0100 · office@larkspur.example');
    const pages = await pagesOf(db, on.customer.id);
    expect(pages.map((p) => [p.kitchen?.name ?? 'all', p.answersQuotes, p.createdById, p.expiresAt.getTime()])).toEqual(
      expect.arrayContaining([
        ['Quay', true, on.person.id, later(365 * 24).getTime()],
        ['all', false, on.person.id, later(365 * 24).getTime()],
      ]),
    );
    const [first] = await db.auditEntry.findMany({ where: { action: 'customer.page_made' }, orderBy: { id: 'asc' } });
    expect(first).toMatchObject({
      entity: 'Customer',
      entityId: on.customer.id,
      userId: on.person.id,
      detail: { holder: 'Rosa Ibarra', kitchen: 'Quay' },
    });
    await revokePage(ctx(), { id: pages[0]?.id ?? '' });
    expect(await db.auditEntry.findFirst({ where: { action: 'customer.page_revoked' } })).toMatchObject({
      entityId: on.customer.id, userId: on.person.id, detail: { holder: 'Rosa Ibarra' },
    }); // prettier-ignore
  });

  it('not for a customer or a kitchen out of use, nor where it would be empty', async () => {
    const { db } = database;
    const customers = await db.customer.createManyAndReturn({ data: [customerRow(), customerRow({ archivedAt: now })] });
    const [empty, gone] = customers.map((c) => c.id);
    await db.kitchen.create({ data: kitchenRow(gone ?? '') });
    await db.kitchen.create({ data: kitchenRow(empty ?? '', { archivedAt: now }) });
    const shut = await db.kitchen.create({ data: kitchenRow(on.customer.id, { archivedAt: now }) });
    await expect(make({ customerId: gone })).rejects.toMatchObject({ code: 'not_found' });
    await expect(make({ customerId: randomUUID() })).rejects.toMatchObject({ code: 'not_found' });
    await expect(make({ customerId: empty })).rejects.toMatchObject({
      code: 'invalid',
      message: expect.stringContaining('would be empty'),
    });
    await expect(make({ kitchenId: shut.id })).rejects.toMatchObject({ code: 'invalid', field: 'kitchenId' });
  });

  it('opens no more once its kitchen, or all of the customer, is out of use', async () => {
    const { db } = database;
    const there = await haveOneUnit(db);
    const [one, all] = [
      await make({ customerId: there.customer.id, kitchenId: there.kitchen.id }),
      await make({ customerId: there.customer.id }),
    ];
    await db.kitchen.create({ data: kitchenRow(there.customer.id, { name: 'Another' }) });
    expect((await opened(all)).kitchens.map((k) => k.name).toSorted()).toEqual(['Another', there.kitchen.name].toSorted());
    await db.kitchen.update({ where: { id: there.kitchen.id }, data: { archivedAt: now } });
    expect(await pageByLink(db, one, now)).toBeNull();
    expect((await opened(all)).kitchens.map((k) => k.name)).toEqual(['Another']);
    await db.customer.update({ where: { id: there.customer.id }, data: { archivedAt: now } });
    expect(await pageByLink(db, all, now)).toBeNull();
  });
});

describe('what stands on it', () => {
  it('is visits that are still to come, open work the most urgent first, quotes that hold, units in use', async () => {
    const { db } = database;
    const page = await opened(await make({ kitchenId: on.kitchen.id }));
    const visit = (hours: number, over: object = {}) =>
      db.visit.create({ data: visitRow(on.kitchen.id, on.person.id, later(hours), 60, over) });
    const [second, first] = [await visit(50), await visit(26)];
    await visit(-3);
    await visit(30, { status: 'cancelled', cancelReason: 'Closed' });
    const job = (what: string, over: object = {}) => db.job.create({ data: jobRow(on.unit, { what, ...over }) });
    await job('Later', { urgency: 'next_visit', createdAt: later(-2) });
    await job('Now', { urgency: 'now', createdAt: later(-9) });
    await job('Later, newer', { urgency: 'next_visit', createdAt: later(-1) });
    await job('Done', { state: 'done', closedAt: now, closedNote: 'Mended' });
    await db.unit.createMany({
      data: [unitRow(on.kitchen.id, { name: 'Bar fridge' }), unitRow(on.kitchen.id, { name: 'Gone', archivedAt: now })],
    });
    const quoted = async (over: object) => {
      const { id } = await db.job.create({ data: jobRow(on.unit, { state: 'quoted', what: 'Quoted', urgency: 'week', visitId: null }) });
      return db.quote.create({
        data: {
          jobId: id, version: 1, lines: { v: 1, lines: [] }, netCents: 100, taxCents: 0, totalCents: 100, currency: 'USD',
          validUntil: new Date('2026-11-27'), reason: 'Worn', sentAt: now, tokenHash: randomUUID(), ...over,
        },
      }); // prettier-ignore
    };
    const holds = await quoted({});
    await quoted({ validUntil: new Date('2026-11-26') });
    const draft = await quoted({ sentAt: null });
    const shown = await onPage(db, page, now);
    expect(shown.visits.map((v) => [v.id, v.technician.name])).toEqual([
      [first.id, 'Tova Lind'],
      [second.id, 'Tova Lind'],
    ]);
    expect(shown.jobs.filter((j) => j.what !== 'Quoted').map((j) => j.what)).toEqual(['Now', 'Later, newer', 'Later']);
    expect(shown.jobs[0]?.units).toEqual(['Freezer']);
    expect(shown.units.map((u) => u.name)).toEqual(['Bar fridge', 'Freezer']);
    expect(shown.quotes.map((q) => q.id)).toEqual([holds.id]);
    expect(await quoteOnPage(db, page, draft.id, now)).toBeNull();
  });

  it('a quarter’s summary is on the page of all kitchens, while one of its letters stands', async () => {
    const { db } = database;
    const [all, one] = [await make({ language: 'es' }), await make({ kitchenId: on.kitchen.id })];
    const sent = (startsOn: string) =>
      db.quarterSent.create({
        data: {
          tokenHash: randomUUID(), customerId: on.customer.id, startsOn: new Date(startsOn), language: 'en', toEmail: 'a@b.example', createdAt: now,
          expiresAt: later(24), sentById: on.person.id,
        },
      }); // prettier-ignore
    const summer = [await sent('2026-07-01'), await sent('2026-07-01')];
    await sent('2026-04-01');
    const quarters = async (token: string) => (await onPage(db, await opened(token), now)).quarters;
    expect(await quarters(all)).toEqual(['2026-07-01', '2026-04-01']);
    expect(await quarters(one)).toEqual([]);
    const page = await opened(all);
    expect(await quarterOnPage(db, page, '2026-07-01')).toMatchObject({ startsOn: '2026-07-01', endsBefore: '2026-10-01' });
    for (const bad of [undefined, '', 'summer', '2026-01-01', '2026-07-02']) expect(await quarterOnPage(db, page, bad)).toBeNull();
    const paper = (token: string, quarter: string | undefined, language?: 'en') =>
      quarterPaperOnPage({ db, now }, { token, quarter, language });
    expect((await paper(all, '2026-07-01')).report.title).toContain('julio a septiembre de 2026');
    expect((await paper(all, '2026-07-01', 'en')).report.title).toContain('July');
    for (const [token, quarter] of [
      [one, '2026-07-01'],
      [all, '2026-01-01'],
      ['x', '2026-07-01'],
    ] as const)
      // prettier-ignore
      await expect(paper(token, quarter)).rejects.toMatchObject({ code: 'not_found' });
    await db.quarterSent.update({ where: { id: summer[0]?.id ?? '' }, data: { revokedAt: now } });
    expect(await quarters(all)).toContain('2026-07-01');
    await db.quarterSent.update({ where: { id: summer[1]?.id ?? '' }, data: { revokedAt: now } });
    expect(await quarters(all)).toEqual(['2026-04-01']);
  });

  it('“ring us” says to the office who wants what how soon; about a unit that is gone it is refused and nothing is written', async () => {
    const { db } = database;
    const token = await make();
    const asked = { token, once: randomUUID(), kitchenId: on.kitchen.id, unitId: on.unit.id, what: 'It drips', urgency: 'today' as const, name: 'Rosa', phone: '555 0142' }; // prettier-ignore
    await askToBeRung(ctx(), asked);
    expect(await db.job.findUniqueOrThrow({ where: { id: asked.once } })).toMatchObject({
      source: 'customer', state: 'asked', what: 'It drips', callerName: 'Rosa', note: 'Written on the page of Rosa Ibarra.', createdById: null, createdAt: now,
    }); // prettier-ignore
    const letter = await db.outboxMessage.findFirstOrThrow({ where: { kind: 'customer_call' } });
    expect(letter.subject.startsWith(`${on.customer.name}, Mill Street asks to be rung: `)).toBe(true);
    expect(letter.text).toBe(`Freezer: It drips\n\nRosa, 555 0142\n\n${baseUrl}/jobs/${asked.once}`);
    const scrapped = await db.unit.create({ data: unitRow(on.kitchen.id, { name: 'Scrapped', archivedAt: now }) });
    const elsewhere = await db.unit.create({ data: unitRow(quay.id) });
    const before = await db.job.count();
    for (const unitId of [scrapped.id, elsewhere.id, randomUUID()])
      await expect(askToBeRung(ctx(), { ...asked, once: randomUUID(), unitId })).rejects.toMatchObject({
        code: 'conflict',
        field: 'unitId',
      });
    expect([await db.job.count(), await db.outboxMessage.count({ where: { kind: 'customer_call' } })]).toEqual([before, 1]);
    // Without an address of its own the shop still has the job on its list.
    await db.shopSettings.update({ where: { id: 1 }, data: { email: '' } });
    await askToBeRung(ctx(), { ...asked, once: randomUUID(), unitId: undefined, kitchenId: quay.id });
    expect([await db.job.count(), await db.outboxMessage.count({ where: { kind: 'customer_call' } })]).toEqual([before + 1, 1]);
  });
});
