import { beforeAll, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { quarterOf } from '@/lib/core/reports/quarter';
import { noteQuarterOpening, quarterByLink, quarterReport, quartersSent } from '@/lib/features/quarters/reads/quarter-report';
import { quarterPaperByLink } from '@/lib/features/quarters/verbs/open-quarter';
import { sendDueQuarters } from '@/lib/features/quarters/verbs/send-due-quarters';
import { revokeQuarter, sendQuarter } from '@/lib/features/quarters/verbs/send-quarter';
import { useDatabase } from '../../support/database';
import { haveOneUnit, jobRow, personRow, visitRow } from '../../support/factories';

const database = useDatabase();
const baseUrl = 'https://shop.example';
const now = new Date('2026-10-05T15:00:00Z');
const summer = quarterOf(localDate('2026-08-01'));
const at = (iso: string) => new Date(iso);
let have: Awaited<ReturnType<typeof haveOneUnit>>;
let actor: { userId: string };

async function visit(on: string, found: 'furred' | 'matted', status: 'done' | 'booked' = 'done') {
  const { db } = database;
  const { id } = await db.visit.create({
    data: { ...visitRow(have.kitchen.id, have.person.id, at(on), 60), status, ...(status === 'done' ? { closedAt: at(on) } : {}) },
  });
  if (status === 'booked') return;
  // A cleaning counts once the low side was looked at and the coil graded.
  const row = { visitId: id, unitId: have.unit.id, at: at(on) };
  await db.finding.createMany({
    data: [
      { ...row, aspect: 'coil', grade: found },
      { ...row, aspect: 'coil', grade: 'bare', phase: 'left' },
      { ...row, aspect: 'ice', grade: 'dry' },
      { ...row, aspect: 'drain', grade: 'runs' },
    ],
  });
  const cleaning = have.tasks.find((t) => t.kindKey === 'coil_cleaning');
  await db.visitTask.create({
    data: { visitId: id, taskId: cleaning?.id ?? '', unitId: have.unit.id, outcome: 'done', open: false },
  });
}

beforeAll(async () => {
  const { db } = database;
  have = await haveOneUnit(db, { kitchen: { name: 'Mill Street', timeZone: 'America/Denver' } });
  actor = { userId: (await db.user.create({ data: personRow({ role: 'owner' }) })).id };
  await db.customer.update({ where: { id: have.customer.id }, data: { email: 'office@lantern.example', language: 'en' } });
  await visit('2026-04-05T15:00:00Z', 'furred');
  await visit('2026-06-04T15:00:00Z', 'furred');
  await visit('2026-08-03T15:00:00Z', 'matted');
  // Still the last day of September at the kitchen, October by UTC; and the other way round.
  await visit('2026-10-01T03:00:00Z', 'matted');
  await visit('2026-07-01T03:00:00Z', 'furred');
  await visit('2026-10-20T15:00:00Z', 'matted', 'booked');
  await db.job.create({ data: jobRow(have.unit, { urgency: 'week' }) });
});
const ctx = () => ({ db: database.db, actor, now, baseUrl });
const read = () => quarterReport(database.db, have.customer.id, summer, { now });
const token = async () => {
  const letter = await database.db.outboxMessage.findFirstOrThrow({ where: { kind: 'quarter_report' }, orderBy: { createdAt: 'desc' } });
  return /quarter\/([\w-]{43})/.exec(letter.text)?.[1] ?? '';
};

describe('the summary of a quarter', () => {
  it('counts what fell into it by the kitchen’s clock, with trend, open work and the next visit', async () => {
    const onFile = await read();
    expect(onFile?.visits).toBe(2);
    const [kitchen] = onFile?.report.kitchens ?? [];
    expect(kitchen?.lines).toEqual([
      'Visits: Monday, August 3; Wednesday, September 30.',
      'The next visit is booked for Tuesday, October 20.',
    ]);
    // Two days on which the same was found and done are one line.
    expect(kitchen?.units[0]?.lines).toHaveLength(2);
    expect(kitchen?.units[0]?.lines[1]).toBe('The coil fouls more slowly than before: judged after 58 days, and after 34 the time before.');
    expect(kitchen?.work).toMatchObject([{ soon: 'Within the week' }]);
    expect(kitchen?.units[0]?.next.length).toBeGreaterThan(0);
  });

  it('opens by its link alone; expired, taken back, tampered or of another customer’s end are refused alike; history stays', async () => {
    const { db } = database;
    const sent = { customerId: have.customer.id, quarter: summer, toEmail: 'ana@lantern.example', language: 'es' as const };
    await expect(sendQuarter({ ...ctx(), now: at('2026-09-30T15:00:00Z') }, sent)).rejects.toMatchObject({ code: 'conflict' });
    await sendQuarter(ctx(), sent);
    const link = await token();
    expect((await quarterPaperByLink({ db, now }, link)).report.title).toContain('julio a septiembre de 2026');
    const flipped = `${link.startsWith('A') ? 'B' : 'A'}${link.slice(1)}`;
    for (const bad of [flipped, '', `${link}a`]) expect(await quarterByLink(db, bad, now)).toBeNull();
    expect(await quarterByLink(db, link, at('2027-06-01T00:00:00Z'))).toBeNull();
    const { id } = (await quarterByLink(db, link, now)) ?? { id: '' };
    await noteQuarterOpening(db, id, now);
    await revokeQuarter(ctx(), { id });
    expect(await quarterByLink(db, link, now)).toBeNull();
    await expect(revokeQuarter(ctx(), { id })).rejects.toMatchObject({ code: 'conflict' });
    expect(await quartersSent(db, have.customer.id, summer)).toMatchObject([
      { toEmail: 'ana@lantern.example', openings: 1, revokedAt: now },
    ]);
  });

  it('goes out by itself once where the owner has it so, whoever else looks, and never of an old quarter', async () => {
    const { db } = database;
    const due = (when: string) => sendDueQuarters({ db, now: at(when), baseUrl });
    await db.quarterSent.deleteMany();
    expect(await due('2026-10-05T15:00:00Z')).toBe(0);
    await db.customer.update({ where: { id: have.customer.id }, data: { sendsQuarters: true } });
    expect(await due('2026-10-02T15:00:00Z')).toBe(0);
    const many = await Promise.all([1, 2, 3].map(() => due('2026-10-05T15:00:00Z')));
    expect(many.reduce((a, b) => a + b, 0)).toBe(1);
    expect(await due('2026-10-06T15:00:00Z')).toBe(0);
    expect(await quartersSent(db, have.customer.id)).toMatchObject([{ sentById: null, toEmail: 'office@lantern.example' }]);
    const again = db.quarterSent.create({
      data: {
        tokenHash: 'x',
        customerId: have.customer.id,
        startsOn: at('2026-07-01'),
        language: 'en',
        toEmail: 'a@b.example',
        createdAt: at('2026-10-01'),
        expiresAt: at('2027-01-01'),
      },
    });
    await expect(again).rejects.toThrow(/Unique constraint|QuarterSent_by_itself_once/);
    const odd = db.quarterSent.create({
      data: {
        tokenHash: 'y',
        customerId: have.customer.id,
        startsOn: at('2026-07-02'),
        language: 'en',
        toEmail: 'a@b.example',
        createdAt: at('2026-10-01'),
        expiresAt: at('2027-01-01'),
      },
    });
    await expect(odd).rejects.toThrow(/QuarterSent_starts/);
    await db.quarterSent.deleteMany();
    expect(await due('2026-11-15T15:00:00Z')).toBe(0);
  });
});
