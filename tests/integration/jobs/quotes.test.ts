import { createHash, randomUUID } from 'node:crypto';
import { beforeAll, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import type { Role } from '@/lib/core/people/access';
import { noteQuoteOpening, photosToChoose, quoteById, quoteByLink, quotePhotos, usualPrices } from '@/lib/features/jobs/reads/quotes';
import { answerQuote } from '@/lib/features/jobs/verbs/answer-quote';
import { exportQuotes } from '@/lib/features/jobs/verbs/export-quotes';
import { printQuote, printQuoteByLink } from '@/lib/features/jobs/verbs/print-quote';
import { saveQuote } from '@/lib/features/jobs/verbs/save-quote';
import { sendQuote } from '@/lib/features/jobs/verbs/send-quote';
import sharp from 'sharp';
import { expectInOrder, picturesOnPaper, textOfPaper } from '@/tests/support/paper';
import { QuotePaper } from '@/lib/server/papers/quote-paper';
import { onPaper, renderPdf } from '@/lib/server/papers/pdf';
import { useDatabase } from '@/tests/support/database';
import { haveOneUnit, jobRow, personRow, visitRow } from '@/tests/support/factories';

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
  expect(mail.text.split('\n')[0]).toBe('The motor stops when it is hot. A new one keeps the box cold.');
  expect(mail.text.split('\n').at(-1)).toBe('Test shop');

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
  // A price was wanted, and was given: declined it is no agreement to go on without one.
  expect(await stateOf(id)).toMatchObject({ needsQuote: true, partsWanted: false });
  expect(await stateOf(id)).toMatchObject({ state: 'declined', closedByName: 'Ilse Braun', closedById: null });
  await expect(write(id)).rejects.toMatchObject({ code: 'conflict' });
});

it('waits for its parts where the list has too few of them', async () => {
  const { db } = database;
  await db.part.create({ data: { number: 'FM-9', name: 'Fan motor', priceCents: 6495, inVan: 1 } });
  const short = async (lines: object[]) => {
    const id = await job();
    await answer(await send((await write(id, { lines })).quoteId), 'accepted');
    return (await stateOf(id)).partsWanted;
  };
  expect(await short([MOTOR])).toBe(false);
  expect(await short([{ ...MOTOR, quantity: 2 }])).toBe(true);
  // One for each of two fans, on a line of its own.
  expect(await short([MOTOR, { ...MOTOR, what: 'The other fan' }])).toBe(true);
  await db.part.update({ where: { number: 'FM-9' }, data: { inShop: 1 } });
  expect(await short([MOTOR, { ...MOTOR, what: 'The other fan' }])).toBe(false);
  // What is not on the list, nobody counts.
  expect(await short([{ ...MOTOR, partNumber: 'NOT-LISTED', quantity: 9 }])).toBe(false);
});

it('takes name and price of a part from the list where they are left out, and says which number the list does not know', async () => {
  const { db } = database;
  await db.part.createMany({
    data: [
      { number: 'G-1', name: 'Gasket', priceCents: 4200 },
      { number: 'G-2', name: 'Old gasket', priceCents: 100, archivedAt: now },
    ],
  });
  const blank = { ...MOTOR, what: '', price: undefined };
  const id = await job();
  const { quoteId } = await write(id, {
    lines: [{ ...blank, partNumber: 'G-1', quantity: undefined }, { ...blank, partNumber: 'G-1', what: 'Door gasket' }, { ...blank, partNumber: 'G-1', price: 3900 }],
    taxPercent: 0,
  }); // prettier-ignore
  expect((await quoteById(db, quoteId))?.lines).toMatchObject([
    { what: 'Gasket', priceCents: 4200, quantity: 1 },
    { what: 'Door gasket', priceCents: 4200 },
    { what: 'Gasket', priceCents: 3900 },
  ]);
  // A price alone that is left out, too; in the shop's own money.
  await db.part.create({ data: { number: 'G-4', name: 'Seal', priceCents: 700 } });
  await db.shopSettings.update({ where: { id: 1 }, data: { currency: 'CAD' } });
  const priced = (await write(await job(), { lines: [{ ...blank, partNumber: 'G-4', what: 'Door seal' }] })).quoteId;
  await db.shopSettings.update({ where: { id: 1 }, data: { currency: 'USD' } });
  expect(await quoteById(db, priced)).toMatchObject({ currency: 'CAD', lines: [{ what: 'Door seal', priceCents: 700 }] });
  for (const partNumber of ['G-2', 'G-3'])
    await expect(write(id, { lines: [{ ...blank, partNumber }] })).rejects.toMatchObject({
      code: 'invalid',
      field: 'lines',
      message: `${partNumber} is not on the list of parts. Say what it is and what it costs.`,
    });
  expect(await db.quote.findMany({ where: { jobId: id } })).toMatchObject([
    { id: quoteId, version: 1, createdById: ctx.actor.userId, netCents: 12_300, currency: 'USD', validUntil: new Date('2026-12-20') },
  ]);
  await expect(write(randomUUID())).rejects.toMatchObject({ code: 'not_found' });
});

it('is sent once a version, before its date, and the version before it is replaced', async () => {
  const { db } = database;
  const id = await job();
  const { quoteId } = await write(id, { validUntil: localDate('2026-11-24') });
  await expect(send(quoteId)).rejects.toMatchObject({ code: 'invalid', field: 'validUntil' });
  await write(id, { validUntil: localDate('2026-11-25') });
  await send(quoteId);
  await expect(send(quoteId)).rejects.toMatchObject({ code: 'conflict', message: expect.stringContaining('was sent already') });
  await expect(send(randomUUID())).rejects.toMatchObject({ code: 'not_found' });
  const other = (await write(id)).quoteId;
  await send(other, 'ilse@example.org');
  expect(await db.quote.findMany({ where: { jobId: id }, orderBy: { version: 'asc' } })).toMatchObject([
    { version: 1, sentTo: '', supersededAt: now, tokenHash: null },
    { version: 2, sentTo: 'ilse@example.org', sentAt: now, supersededAt: null },
  ]);
  // Handed over by hand: no letter goes out, and that is said.
  const letters = await db.outboxMessage.count();
  const third = (await write(id)).quoteId;
  expect(await sendQuote({ db, ...ctx }, { quoteId: third, to: '' })).toMatchObject({ mailed: false });
  expect(await db.outboxMessage.count()).toBe(letters);
  expect((await db.jobEvent.findMany({ where: { jobId: id, to: 'quoted' }, orderBy: { seq: 'asc' } })).map((e) => e.reason)).toEqual([
    'Version 1, $366.61',
    'Version 2, $366.61, to ilse@example.org',
    'Version 3, $366.61',
  ]);
});

it('answered after the job went on by telephone, keeps the job where it stands and the answer in its history', async () => {
  const { db } = database;
  const id = await job();
  const token = await send((await write(id)).quoteId);
  await db.job.update({ where: { id }, data: { state: 'looked_at' } });
  await answer(token, 'accepted');
  expect(await stateOf(id)).toMatchObject({ state: 'looked_at', needsQuote: true });
  expect(await db.jobEvent.findFirst({ where: { jobId: id, kind: 'changed' } })).toMatchObject({
    reason: 'Accepted by Ilse Braun on the quote’s page.',
    byName: 'Ilse Braun',
    byUserId: null,
  });
});

it('shows its pictures in the order chosen, of its own kitchen alone, on paper and on its page', async () => {
  const { db } = database;
  const elsewhere = await haveOneUnit(db);
  const hashOf = (name: string) => createHash('sha256').update(name).digest('hex');
  const picture = async (shop: typeof have, name: string, taken: string, stored = true) => {
    const at = new Date(taken);
    const visit = await db.visit.create({ data: visitRow(shop.kitchen.id, shop.person.id, at, 30, { status: 'started' }) });
    const file = stored
      ? await db.storedFile.create({
          data: { sha256: name, mime: 'image/jpeg', width: 4, height: 3, content: hashOf(name), thumbnail: Buffer.from(name) },
        })
      : null;
    const photo = { id: randomUUID(), visitId: visit.id, unitId: shop.unit.id, takenAt: at, sha256: name, fileId: file?.id ?? null };
    return (await db.photo.create({ data: { ...photo, aspect: 'coil' } })).id;
  };
  const [old, young] = [await picture(have, 'old', '2026-10-01T12:00:00Z'), await picture(have, 'young', '2026-10-02T12:00:00Z')];
  const coming = await picture(have, 'coming', '2026-10-03T12:00:00Z', false);
  const theirs = await picture(elsewhere, 'theirs', '2026-10-04T12:00:00Z');
  expect((await photosToChoose(db, have.kitchen.id, [have.unit.id])).map((p) => p.id)).toEqual([young, old]);
  expect((await photosToChoose(db, have.kitchen.id, [])).map((p) => p.id)).toEqual([young, old]);
  expect(await photosToChoose(db, have.kitchen.id, [elsewhere.unit.id])).toEqual([]);

  const { quoteId } = await write(await job(), { photoIds: [old, young, coming, theirs] });
  const kept = (await db.quote.findUniqueOrThrow({ where: { id: quoteId } })).photoIds;
  expect(kept.toSorted()).toEqual([old, young].toSorted());
  expect((await quotePhotos(db, [young, old, theirs])).map((p) => [p.id, p.content, p.thumbnail.toString()])).toEqual([
    [young, hashOf('young'), 'young'],
    [old, hashOf('old'), 'old'],
    [theirs, hashOf('theirs'), 'theirs'],
  ]);
  // One whose bytes are lost is left out, and the paper comes all the same.
  const pictures = { get: async (content: string) => (content === hashOf('old') ? new Uint8Array([1, 2]) : null) };
  const paper = { db, pictures: pictures as never, now };
  const printed = await printQuote(paper, quoteId);
  const whole = await quoteById(db, quoteId);
  expect(printed).toMatchObject({
    language: 'en',
    file: `quote-${whole?.job.number}-1`,
    quote: { id: quoteId },
    shop: { name: 'Test shop' },
    photos: [{ id: old, bytes: Buffer.from([1, 2]) }],
  });
  const token = await send(quoteId);
  expect((await printQuoteByLink(paper, token)).quote.id).toBe(quoteId);
  const dead = { code: 'not_found' };
  for (const id of [undefined, 'x', randomUUID()]) await expect(printQuote(paper, id)).rejects.toMatchObject(dead);
  await expect(printQuoteByLink(paper, 'A'.repeat(43))).rejects.toMatchObject(dead);
  await expect(printQuoteByLink(paper)).rejects.toMatchObject(dead);
});

it('opening it is counted while it waits for an answer', async () => {
  const { db } = database;
  const { quoteId } = await write(await job());
  const stand = async () => {
    const { openings, openedAt } = await db.quote.findUniqueOrThrow({ where: { id: quoteId } });
    return [openings, openedAt];
  };
  await noteQuoteOpening(db, quoteId, now);
  expect(await stand()).toEqual([0, null]);
  const token = await send(quoteId);
  await noteQuoteOpening(db, quoteId, later(1));
  await noteQuoteOpening(db, quoteId, later(2));
  expect(await stand()).toEqual([2, later(1)]);
  await answer(token, 'declined', later(3));
  await noteQuoteOpening(db, quoteId, later(4));
  expect(await stand()).toEqual([2, later(1)]);
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
  const { quoteId } = await write(await job());
  await answer(await send(quoteId), 'accepted');
  const whole = await quoteById(database.db, quoteId);
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

it('is in the file for the books with a row for each line: what was answered, what was replaced, nothing that was never sent', async () => {
  const { db } = database;
  await db.customer.update({ where: { id: have.customer.id }, data: { name: '=Customer' } });
  const id = await job();
  const first = (await write(id)).quoteId;
  await send(first);
  const token = await send((await write(id, { lines: [{ ...MOTOR, quantity: 2 }] })).quoteId);
  // Eight in the evening of the day before, in Denver.
  await answer(token, 'declined', new Date('2026-11-28T03:00:00Z'));
  const draft = await job();
  await write(draft);
  const { number } = await stateOf(id);
  const csv = (await exportQuotes({ db })).split('\r\n');
  expect(csv[0]).toBe(
    '\uFEFFjob,version,customer,kitchen,sent,valid until,answer,answered on,answered by,kind,what,part number,quantity,unit,price,amount,taxed,tax percent,currency',
  );
  const name = have.kitchen.name;
  expect(csv.filter((l) => l.startsWith(`${number},`)).toSorted()).toEqual([
    `${number},1,'=Customer,${name},2026-11-25,2026-12-20,replaced,,,labour,Labour,,2.5,h,118.00,295.00,no,10.25,USD`,
    `${number},1,'=Customer,${name},2026-11-25,2026-12-20,replaced,,,part,Fan motor,FM-9,1,pcs,64.95,64.95,yes,10.25,USD`,
    `${number},2,'=Customer,${name},2026-11-25,2026-12-20,declined,2026-11-27,Ilse Braun,part,Fan motor,FM-9,2,pcs,64.95,129.90,yes,10.25,USD`,
  ]);
  expect(csv.some((l) => l.startsWith(`${(1 + number).toString()},`))).toBe(false);
  expect(csv.at(-1)).toBe('');
});

it('prices of an hour and a trip are those of the latest quote that had such a line; nothing is made up where none had', async () => {
  const { db } = database;
  const prices = async () => usualPrices(db);
  expect(await prices()).toMatchObject({ labour: 11_800, trip: null });
  const at = (days: number) => ({ ...ctx, now: later(days) });
  const line = { what: 'Work', partNumber: '', quantity: 1, unit: 'h', taxed: false };
  const sent = async (days: number, taxPercent: number, lines: object[]) => {
    const { quoteId } = await write(await job(), { lines, taxPercent });
    await sendQuote({ db, ...at(days) }, { quoteId, to: '' });
  };
  await sent(2, 5, [{ ...line, kind: 'trip', price: 4500 }]);
  await sent(1, 6, [{ ...line, kind: 'labour', price: 12_500 }, { ...line, kind: 'trip', price: 4000 }]); // prettier-ignore
  await write(await job(), { lines: [{ ...line, kind: 'labour', price: 99_900 }], taxPercent: 9 });
  expect(await prices()).toEqual({ labour: 12_500, trip: 4500, taxPercent: 5 });
});
