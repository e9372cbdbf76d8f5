import { randomUUID } from 'node:crypto';
import { expect, it } from 'vitest';
import { foldVisit, jobsUnsaid, type Entry } from '@/lib/core/tablet';
import { visitsOnFile } from '@/lib/features/tablet/reads/visits-on-file';
import { useDatabase } from '@/tests/support/database';
import { jobRow } from '@/tests/support/factories';
import { finding, haveVisit, MORNING, Tablet } from './a-tablet';

const database = useDatabase();

async function haveJobs() {
  const { db } = database;
  const made = await haveVisit(db);
  const { visit, unit } = made;
  const booked = (what: string, over: object = {}) =>
    db.job.create({ data: jobRow(unit, { what, state: 'booked', visitId: visit.id, urgency: 'today', createdAt: MORNING, ...over }) });
  const [warm, motor, price, silent] = [
    await booked('Box is warm'),
    await booked('Fan hums'),
    await booked('Door hangs'),
    await booked('Drips'),
  ];
  const anyway = await db.job.create({ data: jobRow(unit, { what: 'Quote a door gasket' }) });
  await db.job.create({ data: jobRow(unit, { what: 'Quoted one', state: 'quoted' }) });
  return { ...made, tablet: new Tablet(db, made.person), warm, motor, price, silent, anyway };
}
const stateOf = (id: string) => database.db.job.findUniqueOrThrow({ where: { id } });

it('a visit brings its jobs, and takes what became of each as it closes', async () => {
  const { db } = database;
  const { visit, tasks, tablet, warm, motor, price, silent, anyway } = await haveJobs();
  const [visitShown] = await visitsOnFile(db, [visit.id], null);
  expect(visitShown?.jobs?.map((j) => [j.what, j.booked]).sort()).toEqual([
    ['Box is warm', true],
    ['Door hangs', true],
    ['Drips', true],
    ['Fan hums', true],
    ['Quote a door gasket', false],
  ]);
  if (!visitShown) throw new Error('no visit');
  const say = (jobId: string, outcome: 'done' | 'found_right' | 'needs_part' | 'needs_quote', note = '') =>
    tablet.make(visit.id, 'job.outcome', { jobId, outcome, note });
  const entries = [
    tablet.make(visit.id, 'visit.start', { arrivedAt: tablet.clock.toISOString() }),
    say(warm.id, 'needs_part', 'Slip of the thumb'),
    say(warm.id, 'done'),
    say(motor.id, 'needs_part', 'Fan motor'),
    say(price.id, 'needs_quote'),
    say(anyway.id, 'found_right'),
  ];
  expect(jobsUnsaid(foldVisit(visitShown, entries as Entry[])).map((j) => j.what)).toEqual(['Drips']);
  const answers = await tablet.send([...entries, say(silent.id, 'needs_part')]);
  expect(answers.results.map((r) => r.outcome)).toEqual([...entries.map(() => 'applied'), 'rejected']);
  expect((await stateOf(warm.id)).state).toBe('booked');
  const [after] = await visitsOnFile(db, [visit.id], null);
  expect(after?.entries.jobOutcomes).toEqual(foldVisit(visitShown, entries as Entry[]).entries.jobOutcomes);

  const closing = await tablet.send([
    ...tasks.map((t) => tablet.make(visit.id, 'task.not_done', { taskId: t.id, reason: 'No time' })),
    tablet.make(visit.id, 'signature.set', { nobodyThere: true, signedBy: '', png: null }),
    tablet.make(visit.id, 'visit.close', { leftAt: tablet.clock.toISOString(), taskIds: tasks.map((t) => t.id) }),
  ]);
  expect(closing.results.filter((r) => r.outcome !== 'applied')).toEqual([]);
  expect(await stateOf(warm.id)).toMatchObject({ state: 'done', closedNote: 'Done.', closedById: tablet.person.id });
  expect(await stateOf(motor.id)).toMatchObject({ state: 'agreed', partsWanted: true });
  expect(await stateOf(price.id)).toMatchObject({ state: 'looked_at', needsQuote: true });
  expect(await stateOf(anyway.id)).toMatchObject({ state: 'done', closedNote: 'Found right.' });
  expect(await stateOf(silent.id)).toMatchObject({ state: 'looked_at', needsQuote: false });

  const late = await tablet.send([say(silent.id, 'found_right'), say(warm.id, 'needs_quote'), say(randomUUID(), 'done')]);
  expect(late.results.map((r) => r.outcome)).toEqual(['applied', 'applied', 'rejected']);
  expect((await stateOf(silent.id)).state).toBe('done');
  expect((await stateOf(warm.id)).state).toBe('done');
});

it('found again on the tablet goes on, and taking that back takes back only the mark', async () => {
  const { db } = database;
  const { visit, unit, tablet } = await haveJobs();
  const standing = await db.job.create({ data: jobRow(unit, { what: 'Drain and pan: blocked', cause: 'look:drain' }) });
  const wanted = tablet.make(visit.id, 'follow_up.add', { unitId: unit.id, what: 'Drain and pan: frozen', urgency: 'now', note: '' });
  await tablet.send([tablet.make(visit.id, 'finding.set', finding(unit.id, 'drain', 'frozen')), wanted]);
  expect(await stateOf(standing.id)).toMatchObject({ what: 'Drain and pan: frozen', urgency: 'now', state: 'asked' });
  expect(await db.job.count({ where: { id: wanted.id } })).toBe(0);
  const wishes = async () => (await visitsOnFile(db, [visit.id], null))[0]?.entries.followUps.map((f) => f.id);
  expect(await wishes()).toEqual([wanted.id]);
  await tablet.send([tablet.make(visit.id, 'entry.strike', { what: 'follow_up', entryId: wanted.id, why: 'Slip' })]);
  expect(await wishes()).toEqual([]);
  expect((await stateOf(standing.id)).state).toBe('asked');
});

it('what is left undone, or waits for a part, says why in the database too', async () => {
  const { db } = database;
  const { visit, warm } = await haveJobs();
  for (const outcome of ['needs_part', 'not_done'] as const)
    await expect(
      db.jobOutcome.create({ data: { id: randomUUID(), visitId: visit.id, jobId: warm.id, outcome, at: MORNING } }),
    ).rejects.toThrow(/job_outcome_says_why/);
});
