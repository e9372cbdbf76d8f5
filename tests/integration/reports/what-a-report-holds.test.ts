import { beforeAll, describe, expect, it } from 'vitest';
import { customerReport, picturesOf, shopOnReport } from '@/lib/features/reports/reads/customer-report';
import { paperByLink, pictureOfReport } from '@/lib/features/reports/verbs/open-report';
import { revokeReport, sendDueReports, sendReport } from '@/lib/features/reports/verbs/send-report';
import { useDatabase } from '../../support/database';
import { findingRow, haveOneUnit, jobRow, unitRow, visitRow } from '../../support/factories';
import { havePicture, picturesIn } from '@/tests/support/pictures';

const database = useDatabase();
const now = new Date('2026-11-27T15:00:00Z');
const HOUR = 3_600_000;
const later = (hours: number) => new Date(now.getTime() + hours * HOUR);
const baseUrl = 'https://shop.example';
let on: Awaited<ReturnType<typeof haveOneUnit>>;
const ctx = () => ({ db: database.db, actor: { userId: on.person.id }, now, baseUrl });

async function closed(closedAt: Date, over: object = {}) {
  const startsAt = new Date(closedAt.getTime() - HOUR);
  return database.db.visit.create({
    data: visitRow(on.kitchen.id, on.person.id, startsAt, 50, { status: 'done', closedAt, arrivedAt: startsAt, leftAt: closedAt, ...over }),
  });
}

beforeAll(async () => {
  const { db } = database;
  on = await haveOneUnit(db, { kitchen: { name: 'Mill Street' }, unit: { name: 'Freezer' } });
  await db.customer.update({ where: { id: on.customer.id }, data: { email: 'owner@lantern.example', language: 'es' } });
  await db.shopSettings.update({
    where: { id: 1 },
    data: { name: 'Larkspur Cold', phone: '555 0100', email: 'office@larkspur.example', reportWords: 'Net 30 days.' },
  });
});

describe('what a customer gets in hand after a visit', () => {
  it('holds its units, what comes next there and what is open, in the customer’s language or another', async () => {
    const { db } = database;
    const visit = await closed(later(-30));
    const other = await db.unit.create({ data: unitRow(on.kitchen.id, { name: 'Not looked at' }) });
    await db.finding.create({ data: findingRow(visit.id, on.unit.id, 'coil', 'matted', visit.startsAt) });
    await db.job.create({ data: jobRow(on.unit, { what: 'Torn gasket', foundVisitId: visit.id }) });
    await db.job.create({
      data: jobRow(on.unit, { what: 'Hinge mended', foundVisitId: visit.id, state: 'done', closedAt: now, closedNote: 'Done' }),
    });
    await db.job.create({ data: jobRow(on.unit, { what: 'Of another day' }) });
    const english = await customerReport(db, visit.id, 'en');
    const spanish = await customerReport(db, visit.id);
    expect(english).toMatchObject({
      customer: { id: on.customer.id, email: 'owner@lantern.example', language: 'en' },
      visit: { id: visit.id, kitchen: 'Mill Street', closed: true },
      shop: { name: 'Larkspur Cold', phone: '555 0100', email: 'office@larkspur.example', footer: 'Net 30 days.', logo: null },
    });
    expect(spanish?.customer.language).toBe('es');
    expect(spanish?.report.title).not.toBe(english?.report.title);
    expect(english?.report.units.map((u) => u.name)).toEqual(['Freezer']);
    expect(english?.report.units[0]?.next.length).toBeGreaterThan(0);
    const said = JSON.stringify(english?.report);
    expect(said).toContain('Torn gasket');
    for (const unsaid of ['Hinge mended', 'Of another day', other.name]) expect(said).not.toContain(unsaid);
    // What is no longer done there is not promised.
    await db.task.updateMany({ where: { unitId: on.unit.id }, data: { active: false } });
    expect((await customerReport(db, visit.id, 'en'))?.report.units[0]?.next).toEqual([]);
    await db.task.updateMany({ where: { unitId: on.unit.id }, data: { active: true } });
    expect(await customerReport(db, crypto.randomUUID())).toBeNull();
  });

  it('has the shop’s sign at its head, where there is one', async () => {
    const { db } = database;
    await db.shopSettings.update({ where: { id: 1 }, data: { logoPng: new Uint8Array([1, 2, 3]) } });
    expect((await shopOnReport(db)).logo).toBe('AQID');
    await db.shopSettings.update({ where: { id: 1 }, data: { logoPng: null } });
  });
});

describe('a report on its way', () => {
  it('is a letter with its link and its last day, and is written down with whom it went to and who sent it', async () => {
    const { db } = database;
    const visit = await closed(later(-60));
    await sendReport(ctx(), { visitId: visit.id, toEmail: 'chef@lantern.example', language: 'en' });
    const letter = await db.outboxMessage.findFirstOrThrow({ where: { kind: 'visit_report' } });
    expect(letter).toMatchObject({ toEmail: 'chef@lantern.example', createdAt: now, visitId: null });
    expect(letter.subject).toContain(`: ${on.customer.name}, Mill Street, `);
    expect(letter.text).toMatch(/https:\/\/shop\.example\/report\/[\w-]{43}/);
    // Half a year on.
    expect(letter.text).toContain('May 26, 2027');
    expect(letter.text.split('\n').at(-1)).toBe('Larkspur Cold · 555 0100 · office@larkspur.example');
    const sent = await db.reportSent.findFirstOrThrow({ where: { visitId: visit.id } });
    expect(sent).toMatchObject({ sentById: on.person.id, language: 'en', expiresAt: later(180 * 24) });
    await revokeReport(ctx(), { id: sent.id });
    const lines = await db.auditEntry.findMany({ where: { entityId: visit.id }, orderBy: { id: 'asc' } });
    expect(lines).toMatchObject([
      { action: 'report.sent', entity: 'Visit', userId: on.person.id, at: now, detail: { to: 'chef@lantern.example' } },
      { action: 'report.revoked', entity: 'Visit', userId: on.person.id },
    ]);
    await expect(sendReport(ctx(), { visitId: crypto.randomUUID(), toEmail: 'a@b.example', language: 'en' })).rejects.toMatchObject({
      code: 'not_found',
    });
  });

  it('opens with its own pictures through its link, and not once that is taken back', async () => {
    const { db } = database;
    const visit = await closed(later(-90));
    const file = await havePicture(db, new Uint8Array([1, 2]), { sha256: 'one' });
    await db.photo.create({
      data: { id: crypto.randomUUID(), visitId: visit.id, unitId: on.unit.id, takenAt: now, sha256: 'one', fileId: file.id },
    });
    const strange = await havePicture(db, new Uint8Array([3]), { sha256: 'two' });
    await sendReport(ctx(), { visitId: visit.id, toEmail: 'b@lantern.example', language: 'en' });
    const letter = await db.outboxMessage.findFirstOrThrow({ where: { toEmail: 'b@lantern.example' } });
    const token = /report\/([\w-]{43})/.exec(letter.text)?.[1] ?? '';
    const at = { db, now, pictures: picturesIn(db) };
    expect(await pictureOfReport(at, token, file.id)).toMatchObject({ bytes: new Uint8Array([1, 2]) });
    await expect(pictureOfReport(at, token, strange.id)).rejects.toMatchObject({ code: 'not_found' });
    expect((await picturesOf(db, [strange.id])).map((p) => p.id)).toEqual([strange.id]);
    await db.photo.deleteMany();
    expect((await paperByLink(at, token)).visit.id).toBe(visit.id);
    await db.reportSent.updateMany({ where: { visitId: visit.id }, data: { revokedAt: now } });
    for (const opens of [paperByLink(at, token), pictureOfReport(at, token, file.id)])
      await expect(opens).rejects.toMatchObject({ code: 'not_found', message: 'This link does not open.' });
  });

  it('goes by itself only of a visit closed within the week, to an address on file, in the customer’s language', async () => {
    const { db } = database;
    await db.reportSent.deleteMany();
    await db.visit.deleteMany({ where: { status: 'done' } });
    const sends = (over: object) => db.customer.update({ where: { id: on.customer.id }, data: over });
    await sends({ sendsReports: true, email: '' });
    await closed(later(-8 * 24));
    const [old, fresh] = [await closed(later(-6 * 24)), await closed(later(-1))];
    const due = () => sendDueReports({ db, now, baseUrl });
    expect(await due()).toBe(0);
    await sends({ email: 'owner@lantern.example', sendsReports: false });
    expect(await due()).toBe(0);
    await sends({ sendsReports: true });
    await sendReport(ctx(), { visitId: old.id, toEmail: 'by-hand@lantern.example', language: 'en' });
    expect(await due()).toBe(1);
    expect(await db.reportSent.findMany({ where: { sentById: null } })).toMatchObject([
      { visitId: fresh.id, toEmail: 'owner@lantern.example', language: 'es' },
    ]);
  });
});
