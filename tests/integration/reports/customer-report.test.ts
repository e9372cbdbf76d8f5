import sharp from 'sharp';
import type { Region } from '@/lib/core/measures/region';
import { extractText, getDocumentProxy } from 'unpdf';
import { describe, expect, it } from 'vitest';
import { createElement } from 'react';
import { ReportPaper } from '@/lib/server/papers/report-paper';
import { customerReport, reportsSent } from '@/lib/features/reports/reads/customer-report';
import { noteOpening, pictureByLink, reportByLink } from '@/lib/features/reports/reads/report-link';
import { customersUnits } from '@/lib/features/shop/reads/shop';
import { paperOfVisit } from '@/lib/features/reports/verbs/open-report';
import { revokeReport, sendDueReports, sendReport } from '@/lib/features/reports/verbs/send-report';
import { renderPdf } from '@/lib/server/papers/pdf';
import { picturesOnPaper } from '../../support/paper';
import { haveOneUnit, visitRow } from '../../support/factories';
import { useDatabase } from '../../support/database';
import { havePicture, picturesIn } from '@/tests/support/pictures';

const database = useDatabase();
const now = new Date('2026-11-27T15:00:00Z');
const later = (minutes: number) => new Date(now.getTime() + minutes * 60_000);
const baseUrl = 'https://shop.example';

async function closedVisit(photos = 0) {
  const { db } = database;
  const { customer, kitchen, unit, person } = await haveOneUnit(db);
  await db.customer.update({ where: { id: customer.id }, data: { email: 'owner@lantern.example' } });
  const visit = await db.visit.create({
    data: {
      ...visitRow(kitchen.id, person.id, later(-240), 60),
      status: 'done',
      arrivedAt: later(-240),
      leftAt: later(-190),
      closedAt: later(-189),
      nobodyThere: true,
    },
  });
  await db.finding.create({ data: { visitId: visit.id, unitId: unit.id, aspect: 'coil', grade: 'matted', at: later(-230) } });
  await db.finding.create({ data: { visitId: visit.id, unitId: unit.id, aspect: 'coil', grade: 'bare', phase: 'left', at: later(-200) } });
  const files: string[] = [];
  for (let i = 0; i < photos; i++) {
    const noise = {
      create: {
        width: 1600,
        height: 1200,
        channels: 3 as const,
        background: '#888',
        noise: { type: 'gaussian' as const, mean: 120, sigma: 20 },
      },
    };
    const bytes = new Uint8Array(await sharp(noise).jpeg({ quality: 60 }).toBuffer());
    const file = await havePicture(db, bytes, { sha256: `${visit.id}${i}` });
    files.push(file.id);
    await db.photo.create({
      data: {
        id: crypto.randomUUID(),
        visitId: visit.id,
        unitId: unit.id,
        phase: i % 2 ? 'after' : 'before',
        takenAt: later(-220 + i),
        sha256: file.sha256,
        fileId: file.id,
      },
    });
  }
  return { visit, unit, customer, kitchen, files };
}
const token = async () => {
  const letter = await database.db.outboxMessage.findFirstOrThrow({ where: { kind: 'visit_report' }, orderBy: { createdAt: 'desc' } });
  return /report\/([\w-]{43})/.exec(letter.text)?.[1] ?? '';
};

describe('a report sent to a customer', () => {
  it('opens by its link alone, until it is too old or taken back; what it opens is counted; sent again, the history stays', async () => {
    const { visit, files } = await closedVisit(1);
    const other = await closedVisit(1);
    const ctx = { db: database.db, actor: null, now, baseUrl };
    await sendReport(ctx, { visitId: visit.id, toEmail: 'owner@lantern.example', language: 'es' });
    const link = await token();
    expect(await reportByLink(database.db, link, later(60))).toMatchObject({ visitId: visit.id, language: 'es' });
    const flipped = `${link[0] === 'A' ? 'B' : 'A'}${link.slice(1)}`;
    const dead = [flipped, '', 'x'.repeat(43), `${link}a`];
    for (const bad of dead) expect(await reportByLink(database.db, bad, now)).toBeNull();
    expect(await reportByLink(database.db, link, later(181 * 24 * 60))).toBeNull();
    expect(await pictureByLink(database.db, link, files[0] ?? '', now)).not.toBeNull();
    expect(await pictureByLink(database.db, link, other.files[0] ?? '', now)).toBeNull();
    const sent = await reportByLink(database.db, link, now);
    await noteOpening(database.db, sent?.id ?? '', later(5));
    await noteOpening(database.db, sent?.id ?? '', later(9));
    await sendReport({ ...ctx, now: later(10) }, { visitId: visit.id, toEmail: 'chef@lantern.example', language: 'en' });
    await revokeReport({ ...ctx, now: later(11) }, { id: sent?.id ?? '' });
    expect(await reportByLink(database.db, link, later(12))).toBeNull();
    expect(await reportByLink(database.db, await token(), later(12))).not.toBeNull();
    expect((await reportsSent(database.db, visit.id)).map((s) => [s.toEmail, s.openings, s.openedAt, s.revokedAt])).toEqual([
      ['chef@lantern.example', 0, null, null],
      ['owner@lantern.example', 2, later(5), later(11)],
    ]);
    await expect(revokeReport(ctx, { id: sent?.id ?? '' })).rejects.toMatchObject({ code: 'conflict' });
  });

  it('goes out by itself once where the customer has it so, half an hour after the closing, whoever else looks', async () => {
    const { visit, customer } = await closedVisit();
    await database.db.customer.update({ where: { id: customer.id }, data: { sendsReports: true } });
    await database.db.visit.update({ where: { id: visit.id }, data: { closedAt: later(-10) } });
    expect(await sendDueReports({ db: database.db, now, baseUrl })).toBe(0);
    const both = await Promise.all([1, 2, 3].map(() => sendDueReports({ db: database.db, now: later(25), baseUrl })));
    expect(both.reduce((a, b) => a + b, 0)).toBe(1);
    expect(await sendDueReports({ db: database.db, now: later(60), baseUrl })).toBe(0);
    expect(await reportsSent(database.db, visit.id)).toMatchObject([{ sentById: null, toEmail: 'owner@lantern.example' }]);
  });

  it('is not sent of a visit that is not closed', async () => {
    const { visit } = await closedVisit();
    await database.db.visit.update({ where: { id: visit.id }, data: { status: 'started', closedAt: null } });
    const sending = sendReport(
      { db: database.db, actor: null, now, baseUrl },
      { visitId: visit.id, toEmail: 'a@b.example', language: 'en' },
    );
    await expect(sending).rejects.toMatchObject({ code: 'conflict' });
  });
});

describe('the paper', () => {
  it('says what the page says, with its pictures, in few pages', async () => {
    const { visit } = await closedVisit(4);
    const onFile = await paperOfVisit({ db: database.db, pictures: picturesIn(database.db) }, visit.id, 'es');
    const bytes = await renderPdf(createElement(ReportPaper, { onFile }) as never);
    const pdf = await getDocumentProxy(bytes.slice());
    const { text, totalPages } = await extractText(pdf, { mergePages: true });
    const flat = text.replace(/\s+/g, ' ');
    const said = [onFile.report.title, ...onFile.report.lead, ...onFile.report.units.flatMap((u) => [u.name, ...u.lines, ...u.next])];
    for (const sentence of said) expect(flat).toContain(sentence.replace(/\s+/g, ' '));
    expect(picturesOnPaper(bytes)).toBe(4);
    expect(totalPages).toBeLessThanOrEqual(2);
    const shown = await customerReport(database.db, visit.id, 'es');
    expect(shown?.report).toEqual(onFile.report);
  });

  it('is read in the units of where the shop works', async () => {
    const inRegion = async (region: Region) => {
      await database.db.shopSettings.upsert({
        where: { id: 1 },
        create: { name: 'Larkspur Cold', timeZone: 'America/Denver', currency: 'USD', region },
        update: { region },
      });
      return (await customersUnits(database.db)).temperature;
    };
    expect([await inRegion('us'), await inRegion('ie')]).toEqual(['F', 'C']);
  });

  it('prints names beyond the letters of Western Europe, in letters that it carries along', async () => {
    const { visit, unit, kitchen } = await closedVisit();
    const names = ['Łódź Şölen Čevapi', 'Nguyễn Văn Ánh', 'Ταβέρνα Αθηνά', 'Пельмени Їжа'];
    await database.db.kitchen.update({ where: { id: kitchen.id }, data: { name: names.slice(0, 2).join(', ') } });
    await database.db.unit.update({ where: { id: unit.id }, data: { name: names.slice(2).join(', ') } });
    const onFile = await paperOfVisit({ db: database.db, pictures: picturesIn(database.db) }, visit.id, 'en');
    const bytes = await renderPdf(createElement(ReportPaper, { onFile }) as never);
    const { text } = await extractText(await getDocumentProxy(bytes.slice()), { mergePages: true });
    const flat = text.normalize().replace(/\s+/g, ' ');
    for (const name of names) expect(flat).toContain(name);
    const raw = Buffer.from(bytes).toString('latin1');
    expect(raw).toMatch(/\/FontFile[23]? /);
    // As far as they are used: whole, the two weights are fifteen times this.
    expect(bytes.length).toBeLessThan(80_000);
  });
});
