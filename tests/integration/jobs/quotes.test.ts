import { beforeAll, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import type { Role } from '@/lib/core/people/access';
import { quoteById, quoteByLink } from '@/lib/features/jobs/reads/quotes';
import { answerQuote } from '@/lib/features/jobs/verbs/answer-quote';
import { exportQuotes } from '@/lib/features/jobs/verbs/export-quotes';
import { saveQuote } from '@/lib/features/jobs/verbs/save-quote';
import { sendQuote } from '@/lib/features/jobs/verbs/send-quote';
import sharp from 'sharp';
import { expectInOrder, picturesOnPaper, textOfPaper } from '@/tests/support/paper';
import { QuotePaper } from '@/lib/server/papers/quote-paper';
import { onPaper, renderPdf } from '@/lib/server/papers/pdf';
import { useDatabase } from '@/tests/support/database';
import { haveOneUnit, jobRow, personRow } from '@/tests/support/factories';

const database = useDatabase();
const now = new Date('2026-11-25T17:05:00Z');
const later = (days: number) => new Date(now.getTime() + days * 86_400_000);
let ctx: { actor: { userId: string; role: Role }; now: Date; baseUrl: string };
let have: Awaited<ReturnType<typeof haveOneUnit>>;
beforeAll(async () => {
  have = await haveOneUnit(database.db);
  const idris = await database.db.user.create({ data: personRow({ name: 'Idris Fenn', role: 'dispatcher' }) });
  ctx = { actor: { userId: idris.id, role: 'dispatcher' }, now, baseUrl: 'http://localhost' };
});

const MOTOR = { kind: 'part' as const, what: 'Fan motor', partNumber: 'FM-9', quantity: 1, unit: 'pcs', price: 6495, taxed: true };
const write = (jobId: string, over: object = {}) =>
  saveQuote(
    { db: database.db, ...ctx },
    {
      jobId,
      lines: [{ kind: 'labour', what: 'Labour', partNumber: '', quantity: 2.5, unit: 'h', price: 11_800, taxed: false }, MOTOR],
      taxPercent: 10.25,
      validUntil: localDate('2026-12-20'),
      reason: 'The motor stops when it is hot. A new one keeps the box cold.',
      photoIds: [],
      ...over,
    },
  );
const send = async (quoteId: string, to = '') => {
  const { link } = await sendQuote({ db: database.db, ...ctx }, { quoteId, to });
  return link.split('/').at(-1) ?? '';
};
const answer = (token: string, said: 'accepted' | 'declined', at = now) =>
  answerQuote({ db: database.db, now: at }, { token, answer: said, name: 'Ilse Braun', note: '' });
const job = async () => (await database.db.job.create({ data: jobRow(have.unit) })).id;
const stateOf = (id: string) => database.db.job.findUniqueOrThrow({ where: { id } });

it('is sent by a link that only its hash is kept of, accepted by name, and then waits for a date', async () => {
  const { db } = database;
  const id = await job();
  const { quoteId } = await write(id);
  expect((await write(id, { taxPercent: 0 })).quoteId).toBe(quoteId);
  await write(id);
  const token = await send(quoteId, 'ilse@example.org');
  expect(await db.quote.findUniqueOrThrow({ where: { id: quoteId } })).toMatchObject({
    version: 1,
    netCents: 35_995,
    taxCents: 666,
    totalCents: 36_661,
  });
  expect(JSON.stringify(await db.quote.findMany())).not.toContain(token);
  expect(await stateOf(id)).toMatchObject({ state: 'quoted', needsQuote: true });
  const mail = await db.outboxMessage.findFirstOrThrow({ where: { kind: 'quote_sent' } });
  expect(mail).toMatchObject({ toEmail: 'ilse@example.org', status: 'queued' });
  expect(mail.text).toContain(`http://localhost/quote/${token}`);
  expect(mail.text).toContain('$366.61');

  await answer(token, 'accepted');
  expect(await stateOf(id)).toMatchObject({ state: 'agreed', needsQuote: false, partsWanted: false });
  expect(await quoteByLink(db, token, later(60))).toMatchObject({ answer: 'accepted', answeredBy: 'Ilse Braun' });
  await expect(answer(token, 'declined')).rejects.toMatchObject({ code: 'conflict' });
  await expect(db.quote.update({ where: { id: quoteId }, data: { answeredBy: 'X' } })).rejects.toThrow(/quote_answered_stands/);
  await expect(db.quote.delete({ where: { id: quoteId } })).rejects.toThrow(/quote_sent_stands/);
  expect(await db.jobEvent.findFirst({ where: { jobId: id, to: 'agreed' } })).toMatchObject({
    byName: 'Ilse Braun',
    byUserId: null,
    from: 'quoted',
  });
});

it('opens for nobody once it is tampered with, run out or replaced, and nobody hears which', async () => {
  const { db } = database;
  const id = await job();
  const first = await send((await write(id)).quoteId);
  await expect(db.quote.updateMany({ where: { jobId: id }, data: { totalCents: 1 } })).rejects.toThrow(/quote_sent_stands/);
  const second = (await write(id, { taxPercent: 0 })).quoteId;
  expect(await quoteByLink(db, first, now)).not.toBeNull();
  const token = await send(second);
  expect(await quoteByLink(db, token, now)).toMatchObject({ version: 2 });
  const dead: [string, Date][] = [
    [first, now],
    [`${token.slice(0, -1)}${token.endsWith('A') ? 'B' : 'A'}`, now],
    ['x', now],
    [token, later(40)],
  ];
  for (const [t, at] of dead) {
    expect(await quoteByLink(db, t, at)).toBeNull();
    await expect(answer(t, 'accepted', at)).rejects.toMatchObject({
      code: 'not_found',
      message: expect.stringContaining('too old'),
    });
  }
  await answer(token, 'declined');
  expect(await stateOf(id)).toMatchObject({ state: 'declined', closedByName: 'Ilse Braun', closedById: null });
  await expect(write(id)).rejects.toMatchObject({ code: 'conflict' });
});

it('waits for its parts where the list has too few of them', async () => {
  const { db } = database;
  await db.part.create({ data: { number: 'FM-9', name: 'Fan motor', priceCents: 6495, inVan: 1 } });
  const [one, two] = [await job(), await job()];
  await answer(await send((await write(one)).quoteId), 'accepted');
  await answer(await send((await write(two, { lines: [{ ...MOTOR, quantity: 2 }] })).quoteId), 'accepted');
  expect([await stateOf(one), await stateOf(two)].map((j) => j.partsWanted)).toEqual([false, true]);
});

it('adds up by the database’s word, and is answered only by a name', async () => {
  const { db } = database;
  const { quoteId } = await write(await job());
  const change = (data: object) => db.quote.update({ where: { id: quoteId }, data });
  await expect(change({ totalCents: 1 })).rejects.toThrow(/quote_adds_up/);
  await expect(change({ answer: 'accepted', answeredAt: now, sentAt: now })).rejects.toThrow(/quote_answered_by_name/);
  await expect(db.part.create({ data: { number: 'X', name: 'X', priceCents: 1, inVan: -1 } })).rejects.toThrow(/part_counts/);
});

it('goes on paper and into a file for the books', async () => {
  const quote = await database.db.quote.findFirstOrThrow({ where: { answer: 'accepted' }, orderBy: { createdAt: 'asc' } });
  const whole = await quoteById(database.db, quote.id);
  if (!whole) throw new Error('no quote');
  // From the rows: 2.5 h at 118.00 untaxed, one motor at 64.95 taxed by 10.25 %.
  const photo = {
    id: 'p',
    bytes: await sharp({ create: { width: 40, height: 30, channels: 3, background: '#888' } })
      .jpeg()
      .toBuffer(),
  };
  for (const [language, words] of [
    ['en', ['Quote', 'Labour', 'In all']],
    ['es', ['Presupuesto', 'Mano de obra', 'En total']],
  ] as const) {
    const customer = { ...whole.job.kitchen.customer, language };
    const quote = { ...whole, job: { ...whole.job, kitchen: { ...whole.job.kitchen, customer } } };
    const shop = { name: 'Larkspur Cold', phone: '555 0100', email: '', footer: 'Thank you.', logo: null };
    const pdf = await renderPdf(QuotePaper(await onPaper({ quote, shop, photos: [photo] }, language)));
    const text = await textOfPaper(pdf, 'Larkspur Cold · 555 0100');
    expectInOrder(text, [
      'Larkspur Cold', have.customer.name, have.kitchen.name, words[0], `${whole.job.number}-${whole.version}`, whole.reason, have.unit.name,
      words[1], '2.5 h', '$118.00', '$295.00', 'Fan motor (FM-9)', '$64.95', '$64.95', '10.25', '$6.66', words[2], '$366.61', '20', 'Thank you.',
    ]); // prettier-ignore
    expect(picturesOnPaper(pdf)).toBe(1);
  }
  const csv = await exportQuotes({ db: database.db });
  expect(csv.split('\r\n').some((l) => /,labour,Labour,,2\.5,h,118\.00,295\.00,no,10\.25,USD$/.test(l))).toBe(true);
});
