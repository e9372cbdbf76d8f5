import { describe, expect, it } from 'vitest';
import { foldVisit } from '@/lib/core/tablet';
import { SyncRequest } from '@/lib/schemas/tablet/entries';
import { useDatabase } from '../../support/database';
import { finding, haveVisit, MORNING, officeTold, Tablet } from './a-tablet';

const database = useDatabase();

describe('entries from a tablet', () => {
  it('take a visit from arrival to closing, each applied once', async () => {
    const { db } = database;
    const { visit, unit, person, tasks, coil } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const before = await tablet.refresh();
    expect(before.order).toEqual([visit.id]);

    const ops = [
      tablet.make(visit.id, 'visit.start', { arrivedAt: MORNING.toISOString() }),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'matted')),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'bare', { phase: 'left' })),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'ice', 'dry')),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'drain', null)),
      ...tasks.map((t) => tablet.make(visit.id, 'task.done', { taskId: t.id })),
      tablet.make(visit.id, 'signature.set', { nobodyThere: true, signedBy: '', png: null }),
      tablet.make(visit.id, 'visit.close', { leftAt: '2026-11-25T15:50:00Z', taskIds: tasks.map((t) => t.id) }),
    ];
    const first = await tablet.send(ops);
    expect(first.stopped).toBeNull();
    expect(first.results.map((r) => r.outcome).filter((o) => o === 'rejected')).toEqual([]);
    const again = await tablet.send(ops);
    expect(again.results).toEqual(first.results);

    const closed = await db.visit.findUniqueOrThrow({ where: { id: visit.id } });
    expect(closed.status).toBe('done');
    // Begun and closed: whoever looked at it before has an older state.
    expect(closed.version).toBe(visit.version + 2);
    expect(await db.finding.count({ where: { visitId: visit.id } })).toBe(4);
    expect((await db.task.findUniqueOrThrow({ where: { id: coil.id } })).lastDoneOn?.toISOString().slice(0, 10)).toBe('2026-11-25');

    const after = await tablet.refresh(before.cursor);
    const visitShown = after.changed[0];
    const own = before.changed[0];
    if (!visitShown || !own) throw new Error('no visit came down');
    const folded = foldVisit(own, ops as never);
    expect(visitShown.entries.findings).toEqual(folded.entries.findings);
    expect(visitShown.status).toBe(folded.status);
    expect((await tablet.refresh(after.cursor)).changed).toEqual([]);
  });

  it('hold up nothing, however deep they are nested, whatever year they name and whatever their keys are called', async () => {
    const { db } = database;
    const { visit, unit, person } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const deep: unknown = JSON.parse('['.repeat(20_000) + ']'.repeat(20_000));
    // Found by nonsense in the ten thousands: the database client asks each object for its constructor.
    const own: unknown = JSON.parse('{ "kind": "note", "values": { "__proto__": null, "constructor": null } }');
    const ops = [
      { ...tablet.make(visit.id, 'visit.start', { arrivedAt: MORNING.toISOString() }), madeAt: '0000-01-01T00:00:00Z' },
      { ...tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'matted')), payload: deep as never },
      { ...tablet.make(visit.id, 'reading.add', {} as never), payload: own as never },
      tablet.make(visit.id, 'event.add', { unitId: unit.id, kind: 'note', at: '0000-02-01T00:00:00Z', note: '', cause: null }),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'ice', 'dry')),
    ];
    // As a tablet of before says it: the office takes either name.
    const device = { id: tablet.id, holder: person.id, name: 'Tablet', appVersion: 'old' };
    const { entries } = SyncRequest.parse({ device, sentAt: MORNING.toISOString(), operations: ops });
    const reply = await tablet.send(entries);
    expect(reply.results.map((r) => r.outcome)).toEqual(['applied', 'rejected', 'rejected', 'rejected', 'applied']);
    expect(reply.stopped).toBeNull();
  });

  it('refuse to close a cleaned coil whose low side nobody looked at', async () => {
    const { db } = database;
    const { visit, unit, person, tasks } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const reply = await tablet.send([
      tablet.make(visit.id, 'visit.start', { arrivedAt: MORNING.toISOString() }),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'drain', 'runs')),
      ...tasks.map((t) => tablet.make(visit.id, 'task.done', { taskId: t.id })),
      tablet.make(visit.id, 'signature.set', { nobodyThere: true, signedBy: '', png: null }),
      tablet.make(visit.id, 'visit.close', { leftAt: '2026-11-25T15:50:00Z', taskIds: tasks.map((t) => t.id) }),
    ]);
    expect(reply.results.at(-1)?.outcome).toBe('rejected');
    expect(reply.results.at(-1)?.note).toContain('low side');
    expect((await db.visit.findUniqueOrThrow({ where: { id: visit.id } })).status).toBe('started');
  });

  it.each([
    ['as left', [finding('', 'coil', 'matted')]],
    ['as found', [finding('', 'coil', null), finding('', 'coil', 'bare', { phase: 'left' })]],
  ] as const)('a cleaning whose coil nobody graded %s is not done: its dates stand, and the office is asked', async (lacking, coils) => {
    const { db } = database;
    const { visit, unit, person, tasks, coil } = await haveVisit(db);
    const tablet = new Tablet(db, person);
    const reply = await tablet.send([
      tablet.make(visit.id, 'visit.start', { arrivedAt: MORNING.toISOString() }),
      ...[...coils, finding('', 'ice', 'dry'), finding('', 'drain', 'runs')].map((f) =>
        tablet.make(visit.id, 'finding.set', { ...f, unitId: unit.id }),
      ),
      ...tasks.map((t) => tablet.make(visit.id, 'task.done', { taskId: t.id })),
      tablet.make(visit.id, 'signature.set', { nobodyThere: true, signedBy: '', png: null }),
      tablet.make(visit.id, 'visit.close', { leftAt: '2026-11-25T15:50:00Z', taskIds: tasks.map((t) => t.id) }),
    ]);
    expect(await officeTold(db, reply.results.at(-1))).toContain(`nobody graded the coil ${lacking}. It counts as not done`);
    expect((await db.visit.findUniqueOrThrow({ where: { id: visit.id } })).status).toBe('done');
    const outcome = async () =>
      (await db.visitTask.findUniqueOrThrow({ where: { visitId_taskId: { visitId: visit.id, taskId: coil.id } } })).outcome;
    expect(await outcome()).toBe('not_done');
    expect((await db.task.findUniqueOrThrow({ where: { id: coil.id } })).lastDoneOn).toEqual(coil.lastDoneOn);
    // The database holds it too; graded after all and said done again, it counts.
    await expect(db.visitTask.updateMany({ where: { visitId: visit.id, taskId: coil.id }, data: { outcome: 'done' } })).rejects.toThrow(
      /coil not graded as found and as left/,
    );
    await tablet.send([
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'matted')),
      tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'bare', { phase: 'left' })),
      tablet.make(visit.id, 'task.done', { taskId: coil.id }),
    ]);
    expect(await outcome()).toBe('done');
  });
});
