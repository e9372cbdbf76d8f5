import { describe, expect, it } from 'vitest';
import type { EntryKind, Payloads } from '@/lib/core/tablet';
import type { EntryEnvelope } from '@/lib/schemas/tablet/entries';
import { isRefusal } from '@/lib/features/tablet/verbs/is-refusal';
import { useDatabase } from '../../support/database';
import { finding, haveVisit, MORNING, Tablet } from './a-tablet';

const database = useDatabase();
/** One pixel. */
const PNG = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';
const minutes = (n: number) => new Date(MORNING.getTime() + n * 60_000);

/** Two tablets that know nothing of one another answer, the first at five, the second at nine minutes past. */
async function bothAnswer<K extends EntryKind>(
  kind: (n: 0 | 1) => [K, (given: { unitId: string; taskId: string }) => Payloads[K]],
  arriving: 'in order' | 'late',
) {
  const { db } = database;
  const { visit, unit, person, coil } = await haveVisit(db);
  const tablets = [new Tablet(db, person), new Tablet(db, person)] as const;
  const made = ([0, 1] as const).map((n): [Tablet, EntryEnvelope] => {
    const [k, payload] = kind(n);
    return [
      tablets[n],
      tablets[n].make(visit.id, k, payload({ unitId: unit.id, taskId: coil.id }), { madeAt: minutes(n === 0 ? 5 : 9).toISOString() }),
    ];
  });
  if (arriving === 'late') made.reverse();
  const replies = [];
  for (const [i, [tablet, op]] of made.entries()) replies.push((await tablet.send([op], minutes(20 + 10 * i))).results[0]);
  return { db, visit, unit, coil, replies };
}

describe.each(['in order', 'late'] as const)('two tablets answer differently, the earlier arriving %s', (arriving) => {
  it('a task: the later made answer stands, and the office is told both', async () => {
    const { db, visit, coil, replies } = await bothAnswer<'task.done' | 'task.not_done'>(
      (n) => (n === 0 ? ['task.done', ({ taskId }) => ({ taskId })] : ['task.not_done', ({ taskId }) => ({ taskId, reason: 'No key' })]),
      arriving,
    );
    expect(replies[0]?.outcome).toBe('applied');
    expect(replies[1]).toMatchObject({
      outcome: 'conflict',
      note: expect.stringMatching(/not done \(No key\).*The later stands: not done \(No key\)/),
    });
    expect(await db.visitTask.findUnique({ where: { visitId_taskId: { visitId: visit.id, taskId: coil.id } } })).toMatchObject({
      outcome: 'not_done',
      reason: 'No key',
    });
  });

  it('when they arrived: the earlier counts, once, and nobody is asked', async () => {
    const { db, visit, replies } = await bothAnswer<'visit.start'>(
      (n) => ['visit.start', () => ({ arrivedAt: minutes(n === 0 ? 2 : 6).toISOString() })],
      arriving,
    );
    expect(replies.map((r) => r?.outcome)).toEqual(['applied', 'applied']);
    const { arrivedAt, status, version } = await db.visit.findUniqueOrThrow({ where: { id: visit.id } });
    expect([arrivedAt, status, version]).toEqual([minutes(2), 'started', visit.version + 1]);
  });

  it('whether a unit was reached', async () => {
    const { db, visit, unit, replies } = await bothAnswer<'unit.outcome'>(
      (n) => [
        'unit.outcome',
        ({ unitId }) =>
          n === 0 ? { unitId, outcome: 'seen', reason: '' } : { unitId, outcome: 'could_not_reach', reason: 'Full of stock' },
      ],
      arriving,
    );
    expect(replies[1]).toMatchObject({
      outcome: 'conflict',
      note: expect.stringContaining('The later stands: could not be reached (Full of stock)'),
    });
    expect(await db.unitVisit.findUnique({ where: { visitId_unitId: { visitId: visit.id, unitId: unit.id } } })).toMatchObject({
      outcome: 'could_not_reach',
    });
  });

  it('a signature is never given up for “nobody there”', async () => {
    const { db, visit, replies } = await bothAnswer<'signature.set'>(
      (n) => [
        'signature.set',
        () => (n === 0 ? { nobodyThere: false, signedBy: 'Maria Ortega', png: PNG } : { nobodyThere: true, signedBy: '', png: null }),
      ],
      arriving,
    );
    expect(replies[1]).toMatchObject({ outcome: 'conflict', note: expect.stringContaining('the signature stands') });
    expect(await db.visit.findUnique({ where: { id: visit.id } })).toMatchObject({ nobodyThere: false, signedBy: 'Maria Ortega' });
  });
});

it('a second tablet that had seen the first’s answer may change it without a question', async () => {
  const { db } = database;
  const { visit, unit, person, coil } = await haveVisit(db);
  const [first, second] = [new Tablet(db, person), new Tablet(db, person)];
  await first.send(
    [
      first.make(visit.id, 'task.not_done', { taskId: coil.id, reason: 'No key' }),
      first.make(visit.id, 'unit.outcome', { unitId: unit.id, outcome: 'could_not_reach', reason: 'No key' }),
      first.make(visit.id, 'signature.set', { nobodyThere: true, signedBy: '', png: null }),
    ],
    minutes(10),
  );
  second.clock = second.basedOn = minutes(30);
  const reply = await second.send([
    second.make(visit.id, 'task.done', { taskId: coil.id }),
    second.make(visit.id, 'unit.outcome', { unitId: unit.id, outcome: 'seen', reason: '' }),
    second.make(visit.id, 'signature.set', { nobodyThere: false, signedBy: 'Maria Ortega', png: PNG }),
    second.make(visit.id, 'signature.set', { nobodyThere: true, signedBy: '', png: null }),
  ]);
  expect(reply.results.map((r) => r.outcome)).toEqual(['applied', 'applied', 'applied', 'applied']);
  expect(await db.visitTask.findFirst({ where: { visitId: visit.id, taskId: coil.id } })).toMatchObject({ outcome: 'done' });
});

describe('two people who write the same thing down', () => {
  const said = (unitId: string, at: string) =>
    [
      ['part.use', { unitId, what: 'Fan clip', quantity: 2 }],
      ['follow_up.add', { unitId, what: 'New door gasket', urgency: 'next', note: '' }],
      ['food_warning.add', { unitId, boxK: 281.5, toldTo: 'Ines Halloran', toldAt: at, note: '' }],
      ['event.add', { unitId, kind: 'high_pressure_trip', at, note: 'Twice at noon', cause: null }],
    ] as const;
  const rows = async (db: Parameters<typeof haveVisit>[0], visitId: string) => [
    await db.partUsed.count({ where: { visitId } }),
    await db.job.count({ where: { foundVisitId: visitId } }),
    await db.foodWarning.count({ where: { visitId } }),
    await db.unitEvent.count({ where: { visitId } }),
  ];

  it('make one of it, ask nobody, and keep both entries; what one had seen of the other is a second one', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const [first, second] = [new Tablet(db, person), new Tablet(db, person)];
    const at = minutes(5).toISOString();
    await first.send(
      said(unit.id, at).map(([kind, payload]) => first.make(visit.id, kind, payload)),
      minutes(10),
    );
    const again = said(unit.id, at).map(([kind, payload]) =>
      second.make(visit.id, kind, { ...payload, ...('what' in payload ? { what: ` ${payload.what.toUpperCase()}` } : {}) }),
    );
    const reply = await second.send(again, minutes(12));
    expect(reply.results.map((r) => [r.outcome, r.note])).toEqual(again.map(() => ['applied', '']));
    expect(await rows(db, visit.id)).toEqual([1, 1, 1, 1]);
    expect(await db.entry.count({ where: { visitId: visit.id } })).toBe(8);
    const [visitShown] = (await second.refresh('', minutes(13))).changed;
    expect(visitShown?.entries.parts).toHaveLength(1);
    // Taken back on one tablet, it still stands for the other, who is asked.
    const strike = first.make(visit.id, 'entry.strike', { what: 'part', entryId: visitShown?.entries.parts[0]?.id ?? '', why: 'Slip' });
    expect((await first.send([strike], minutes(15))).results[0]).toMatchObject({
      outcome: 'conflict',
      note: expect.stringContaining('stays'),
    });
    second.basedOn = minutes(20);
    await second.send([second.make(visit.id, 'part.use', { unitId: unit.id, what: 'Fan clip', quantity: 2 })], minutes(21));
    expect(await db.partUsed.count({ where: { visitId: visit.id } })).toBe(2);
  });

  it('with a little difference of their instruments, no question; with a real one, both are told', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const read = (t: Tablet, airInK: number) =>
      t.make(visit.id, 'reading.add', {
        unitId: unit.id,
        phase: 'before',
        values: { airInK, condensingClampK: 320 },
        gaugeGrade: null,
        gaugeSpanPa: null,
        entered: {},
        questioned: [],
        replaces: null,
      });
    const tablets = [0, 1, 2].map(() => new Tablet(db, person));
    const replies = [];
    for (const [i, t] of tablets.entries())
      replies.push((await t.send([read(t, [303, 303.6, 309][i] ?? 0)], minutes(10 + i))).results[0]?.outcome);
    expect(replies).toEqual(['applied', 'applied', 'conflict']);
  });
});

describe('one tablet', () => {
  it('may change its mind without a question, even where its clock was put right in between', async () => {
    const { db } = database;
    const { visit, person, coil } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const results = await tablet.send(
      [
        tablet.make(visit.id, 'task.not_done', { taskId: coil.id, reason: 'No key' }, { madeAt: minutes(12).toISOString() }),
        tablet.make(visit.id, 'task.done', { taskId: coil.id }, { madeAt: minutes(3).toISOString() }),
        tablet.make(
          visit.id,
          'signature.set',
          { nobodyThere: false, signedBy: 'M. Ortega', png: PNG },
          { madeAt: minutes(12).toISOString() },
        ),
        tablet.make(visit.id, 'signature.set', { nobodyThere: true, signedBy: '', png: null }, { madeAt: minutes(4).toISOString() }),
      ],
      minutes(20),
    );
    expect(results.results.map((r) => r.outcome)).toEqual(['applied', 'applied', 'applied', 'applied']);
    expect(await db.visitTask.findFirst({ where: { visitId: visit.id, taskId: coil.id } })).toMatchObject({ outcome: 'done' });
    expect(await db.visit.findUnique({ where: { id: visit.id } })).toMatchObject({ nobodyThere: true, signedBy: '' });
  });

  it('keeps a visit it has begun, however far off the office moves it; one not begun leaves', async () => {
    const { db } = database;
    for (const begun of [true, false]) {
      const { visit, unit, person } = await haveVisit(db);
      const tablet = new Tablet(db, person);
      await tablet.refresh();
      if (begun) await tablet.send([tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'matted'))]);
      await db.visit.update({ where: { id: visit.id }, data: { startsAt: minutes(20 * 1440), endsAt: minutes(20 * 1440 + 60) } });
      expect((await tablet.refresh()).order).toEqual(begun ? [visit.id] : []);
    }
  });
});

it('an entry our own code trips over holds up nothing; a lost line is no refusal', () => {
  expect(isRefusal(new TypeError('x is undefined'))).toBe(true);
  expect(isRefusal(Object.assign(new Error('invalid'), { name: 'PrismaClientValidationError' }))).toBe(true);
  expect(isRefusal(Object.assign(new Error('read ECONNRESET'), { code: 'ECONNRESET' }))).toBe(false);
  expect(isRefusal(Object.assign(new Error('closed'), { code: 'P1017' }))).toBe(false);
});
