import { beforeAll, describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { quarterOf } from '@/lib/core/reports/quarter';
import { quarterOnFile } from '@/lib/features/quarters/reads/quarter-on-file';
import { noteQuarterOpening, quarterByLink, quarterReport, quartersSent } from '@/lib/features/quarters/reads/quarter-report';
import { quarterPaper, quarterPaperByLink } from '@/lib/features/quarters/verbs/open-quarter';
import { sendDueQuarters } from '@/lib/features/quarters/verbs/send-due-quarters';
import { revokeQuarter, sendQuarter } from '@/lib/features/quarters/verbs/send-quarter';
import { useDatabase } from '../../support/database';
import {
  findingRow,
  haveOneUnit,
  jobRow,
  kitchenRow,
  personRow,
  readingRow,
  unitRow,
  visitRow,
  visitTaskRow,
} from '../../support/factories';

const database = useDatabase();
const baseUrl = 'https://shop.example';
const now = new Date('2026-10-05T15:00:00Z');
const summer = quarterOf(localDate('2026-08-01'));
const at = (iso: string) => new Date(iso);
let have: Awaited<ReturnType<typeof haveOneUnit>>;
let actor: { userId: string };

const FIGURE = { value: 1, lo: 0, hi: 2, level: 0.8 };
/** An estimate that says something; of its figures only the money is looked at here. */
const SAYS = {
  v: 2, status: 'ok', condensingK: FIGURE, condensingDewK: FIGURE, riseK: FIGURE, cleanRiseK: FIGURE, designRiseK: { ...FIGURE, repeatSd: 1, means: '' },
  conductanceLost: FIGURE, coolingLostHotDay: null, extraEnergyKwhPerDay: null, cannotKeepUp: false, dischargeHotDayK: null, headHotDayPaGauge: null,
  cutoutAirK: null, causes: [], lookNext: [], verdict: 'clean_it', sentence: '', doubts: [], assumptions: [],
}; // prettier-ignore

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
      { toEmail: 'ana@lantern.example', openings: 1, openedAt: now, revokedAt: now, sentById: actor.userId, language: 'es' },
    ]);
    expect(JSON.stringify(await quartersSent(db, have.customer.id))).not.toContain('tokenHash');
    expect(await quartersSent(db, have.customer.id, quarterOf(localDate('2026-04-01')))).toEqual([]);
    await expect(quarterPaperByLink({ db, now }, link)).rejects.toMatchObject({ code: 'not_found' });
    const history = await db.auditEntry.findMany({ where: { entityId: have.customer.id }, orderBy: { id: 'asc' } });
    expect(history).toMatchObject([
      {
        action: 'customer.quarter_sent',
        entity: 'Customer',
        userId: actor.userId,
        at: now,
        detail: { to: 'ana@lantern.example', quarter: '2026-07-01' },
      },
      { action: 'customer.revoked', entity: 'Customer', userId: actor.userId },
    ]);
  });

  it('is told in a letter with its address, how long that works and who sends it; the last day it works is half a year on', async () => {
    const { db } = database;
    await db.shopSettings.update({ where: { id: 1 }, data: { phone: '555 0100', email: 'office@larkspur.example' } });
    await sendQuarter(ctx(), { customerId: have.customer.id, quarter: summer, toEmail: 'bo@lantern.example', language: 'en' });
    const letter = await db.outboxMessage.findFirstOrThrow({ where: { toEmail: 'bo@lantern.example' } });
    expect(letter).toMatchObject({ kind: 'quarter_report', status: 'queued', createdAt: now });
    expect(letter.subject).toBe(`Your refrigeration, July to September 2026: ${have.customer.name}`);
    const lines = letter.text.split('\n');
    expect(lines[1]).toMatch(/^https:\/\/shop\.example\/quarter\/[\w-]{43}$/);
    expect(letter.text).toContain('until Apr 3, 2027.');
    expect(lines.at(-1)).toBe('Test shop · 555 0100 · office@larkspur.example');
    const link = /quarter\/([\w-]{43})/.exec(letter.text)?.[1] ?? '';
    const until = now.getTime() + 180 * 86_400_000;
    expect(await quarterByLink(db, link, new Date(until - 1))).toMatchObject({ customerId: have.customer.id, language: 'en' });
    expect(await quarterByLink(db, link, new Date(until))).toBeNull();
    await db.customer.update({ where: { id: have.customer.id }, data: { archivedAt: now } });
    expect(await quarterByLink(db, link, now)).toBeNull();
    const again = sendQuarter(ctx(), { customerId: have.customer.id, quarter: summer, toEmail: 'bo@lantern.example', language: 'en' });
    await expect(again).rejects.toMatchObject({ code: 'not_found' });
    await db.customer.update({ where: { id: have.customer.id }, data: { archivedAt: null } });
  });

  it('is the same on paper for the office, in either language, of the quarter of any of its days', async () => {
    const ask = (over: object = {}) =>
      quarterPaper({ db: database.db, now }, { id: have.customer.id, on: '2026-09-30', language: null, ...over });
    expect((await ask()).report).toMatchObject({ language: 'en', title: expect.stringContaining('July to September 2026') });
    expect((await ask({ language: 'es' })).report.title).toContain('julio a septiembre de 2026');
    expect((await ask({ language: 'xx' })).report.language).toBe('en');
    expect((await ask({ on: '2026-06-30' })).report.title).toContain('April to June 2026');
    for (const bad of [{ id: undefined }, { id: 'x' }, { id: crypto.randomUUID() }, { on: null }, { on: '2026-13-01' }])
      await expect(ask(bad)).rejects.toMatchObject({ code: 'not_found', message: 'That customer is not on file.' });
  });

  it('tells of each unit what was found, done or not reached, what its dirt was costing, what was finished, and of what is in use alone', async () => {
    const { db } = database;
    const { customer, kitchen, unit, person, tasks } = await haveOneUnit(db, { kitchen: { name: 'Alder' }, unit: { name: 'Bar fridge' } });
    const [other, gone] = await db.unit.createManyAndReturn({
      data: [unitRow(kitchen.id, { name: 'Attic freezer' }), unitRow(kitchen.id, { name: 'Cold gone', archivedAt: now })],
    });
    await db.kitchen.create({ data: { ...kitchenRow(customer.id, { name: 'Shut' }), archivedAt: now } });
    const closed = async (on: string) =>
      db.visit.create({ data: visitRow(kitchen.id, person.id, at(on), 60, { status: 'done', closedAt: at(on), arrivedAt: at(on) }) });
    const one = await closed('2026-07-20T15:00:00Z');
    await db.finding.createMany({
      data: [
        findingRow(one.id, unit.id, 'coil', 'matted', one.startsAt),
        findingRow(one.id, unit.id, 'coil', 'bare', one.startsAt, { phase: 'left' }),
        findingRow(one.id, unit.id, 'drain', 'blocked', one.startsAt, { supersededAt: now }),
        findingRow(one.id, gone?.id ?? '', 'drain', 'blocked', one.startsAt),
      ],
    });
    await db.unitVisit.create({ data: { visitId: one.id, unitId: other?.id ?? '', outcome: 'could_not_reach', reason: 'Behind crates' } });
    const drain = tasks.find((t) => t.kindKey === 'drain_inspection') ?? expect.fail();
    await db.visitTask.create({ data: visitTaskRow(one.id, drain, { outcome: 'done', open: false }) });
    const read = async (visitId: string, on: string, over: object = {}, cost = 0.5) => {
      const reading = await db.reading.create({ data: readingRow(unit.id, at(on), { visitId, ...over }) });
      const result = { ...SAYS, extraCostPerDay: { value: cost, lo: cost / 2, hi: cost * 2, level: 0.8, currency: 'USD' } };
      await db.estimate.create({
        data: { readingId: reading.id, unitId: unit.id, at: at(on), status: 'ok', verdict: 'clean_it', modelVersion: 't', result },
      });
    };
    const first = await closed('2026-07-06T15:00:00Z');
    await read(first.id, '2026-07-06T15:10:00Z', {}, 0.4);
    await read(one.id, '2026-07-20T15:20:00Z', {}, 0.6);
    await read(one.id, '2026-07-20T15:30:00Z', { phase: 'after' }, 9);
    await read(one.id, '2026-07-20T15:40:00Z', { supersededAt: now }, 9);
    const late = await closed('2026-10-02T15:00:00Z');
    await read(late.id, '2026-10-02T15:10:00Z', {}, 9);
    const finished = { state: 'done', closedNote: 'Mended' } as const;
    for (const on of ['2026-06-30T15:00:00Z', '2026-07-01T15:00:00Z', '2026-09-30T15:00:00Z', '2026-10-01T15:00:00Z'])
      await db.job.create({ data: jobRow(unit, { ...finished, closedAt: at(on) }) });
    await db.job.create({ data: jobRow(unit, { urgency: 'next_visit', what: 'Later' }) });
    await db.job.create({ data: jobRow(unit, { urgency: 'now', what: 'Sooner' }) });
    await db.visit.createMany({
      data: [
        visitRow(kitchen.id, person.id, at('2026-11-10T15:00:00Z'), 60),
        visitRow(kitchen.id, person.id, at('2026-10-12T15:00:00Z'), 60),
        visitRow(kitchen.id, person.id, at('2026-10-04T15:00:00Z'), 60),
      ],
    });
    await db.task.updateMany({ where: { unitId: unit.id }, data: { dueOn: new Date('2026-11-01') } });
    await db.task.updateMany({ where: { id: drain.id }, data: { dueOn: new Date('2026-10-15') } });
    await db.task.updateMany({ where: { unitId: unit.id, kindKey: 'evaporator_inspection' }, data: { active: false } });

    const [alder, ...none] = await quarterOnFile(db, customer.id, summer, now);
    expect(none).toEqual([]);
    expect(alder).toMatchObject({
      name: 'Alder',
      visits: ['2026-07-06', '2026-07-20'],
      nextVisit: '2026-10-12',
      finished: 2,
      jobs: [
        { what: 'Sooner', unitNames: ['Bar fridge'] },
        { what: 'Later', urgency: 'next_visit' },
      ],
    });
    expect(alder?.units).toEqual([
      {
        id: other?.id,
        name: 'Attic freezer',
        days: [{ on: '2026-07-20', found: [], done: [], reached: false }],
        coil: [],
        cost: null,
        next: [],
      },
      {
        id: unit.id,
        name: 'Bar fridge',
        days: [
          {
            on: '2026-07-20',
            found: [{ aspect: 'coil', grade: 'matted' }],
            done: [{ kind: 'drain_inspection', label: expect.any(String) }],
            reached: true,
          },
        ],
        coil: [{ on: '2026-07-20', found: 'matted', cleaned: false }],
        cost: { value: 0.6, lo: 0.3, hi: 1.2, currency: 'USD', on: '2026-07-20' },
        next: [
          { kind: 'drain_inspection', task: expect.any(String), dueOn: '2026-10-15', rule: drain.rule, ruleBefore: null },
          expect.objectContaining({ kind: 'coil_cleaning', dueOn: '2026-11-01' }),
        ],
      },
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
    expect(await due('2026-10-31T15:00:00Z')).toBe(0);

    // Nobody to write to, out of use, or no visit in it by the shop's clock: none goes out.
    const change = (data: object) => db.customer.update({ where: { id: have.customer.id }, data });
    const none = async (data: object, back: object) => {
      await change(data);
      expect(await due('2026-10-30T15:00:00Z'), JSON.stringify(data)).toBe(0);
      await change(back);
    };
    await none({ email: '' }, { email: 'office@lantern.example' });
    await none({ archivedAt: now }, { archivedAt: null });
    await none(
      { kitchens: { updateMany: { where: {}, data: { archivedAt: now } } } },
      { kitchens: { updateMany: { where: {}, data: { archivedAt: null } } } },
    );
    expect(await due('2026-10-03T15:00:00Z')).toBe(1);
    const idle = await haveOneUnit(db);
    await db.customer.update({ where: { id: idle.customer.id }, data: { email: 'idle@lantern.example', sendsQuarters: true } });
    const begins = (on: string, over: object) => db.visit.create({ data: visitRow(idle.kitchen.id, idle.person.id, at(on), 60, over) });
    const over = (on: string) => ({ status: 'done', closedAt: at(on) }) as const;
    await begins('2026-07-01T05:00:00Z', over('2026-07-01T06:30:00Z'));
    await begins('2026-10-01T06:00:00Z', over('2026-10-01T07:00:00Z'));
    await begins('2026-08-20T15:00:00Z', { status: 'started' });
    expect(await due('2026-10-03T15:00:00Z')).toBe(0);
    await begins('2026-07-01T06:00:00Z', over('2026-07-01T07:00:00Z'));
    expect(await due('2026-10-03T15:00:00Z')).toBe(1);
  });
});
