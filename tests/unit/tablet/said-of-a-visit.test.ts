import { describe, expect, it } from 'vitest';
import { signingIn } from '@/lib/core/customer-words/signing';
import { foldVisit, missingToClose, NO_FOOD, type Entry, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet';
import { fromOwn, ownDifference, ownText, toOwn, unitOf } from '@/lib/core/tablet/own-units';
import { partsForeseen } from '@/lib/core/tablet/parts-foreseen';
import { whatWasDone } from '@/lib/core/tablet/what-was-done';

const US = { temperatureUnit: 'F', pressureUnit: 'psig' } as const;
const METRIC = { temperatureUnit: 'C', pressureUnit: 'bar' } as const;
const unit = { id: 'u', name: 'Line fridge', kind: 'reach_in', application: 'medium', tasks: [{ taskId: 't2', label: 'Drain', kindKey: 'drain_inspection' }] } as unknown as UnitOnFile; // prettier-ignore
const task = (taskId: string, label: string, outcome = 'planned', reason = '') => ({ taskId, unitId: 'u', kindKey: 'coil_cleaning', label, outcome, reason, lowSide: false }); // prettier-ignore
const visit = (entries: object = {}, over: object = {}): VisitOnFile =>
  ({
    id: 'v', status: 'started', units: [unit], tasks: [],
    entries: { arrivedAt: null, leftAt: null, findings: [], readings: [], outcomes: [], photos: [], signature: null, parts: [], followUps: [], foodWarnings: [], events: [], ...entries },
    ...over,
  }) as unknown as VisitOnFile; // prettier-ignore
const found = (aspect: string, grade: string | null, phase = 'found') => ({
  id: aspect + phase,
  unitId: 'u',
  aspect,
  phase,
  grade,
  notLookedWhy: '',
});
const box = (phase: string, boxK: number) => ({ id: phase, unitId: 'u', phase, values: { boxK } });

describe('what whoever signs puts a name to', () => {
  const said = (v: VisitOnFile) => whatWasDone(v, unit, US).map((l) => `${l.bad ? '! ' : ''}${l.text}`);
  it('is nothing where nothing was noted of this unit', () => {
    expect(said(visit({ events: [{ id: 'e', unitId: 'other', kind: 'note', note: 'loud' }] }))).toEqual([]);
  });
  it('marks what does not do its work, by how it was left where it was', () => {
    const bad = (...findings: object[]) => whatWasDone(visit({ findings }), unit, US).map((l) => l.bad);
    expect(bad(found('coil', 'packed'))).toEqual([true]);
    expect(bad(found('coil', 'packed'), found('coil', 'bare', 'left'))).toEqual([false]);
    expect(bad(found('coil', 'furred'))).toEqual([false]);
    expect(bad(found('drain', null))).toEqual([]);
  });
  it('tells what was done, what was not, and work wanted, the urgent marked', () => {
    const v = visit(
      { followUps: [{ id: 'f', unitId: 'u', what: 'Door hinge', urgency: 'now' }, { id: 'g', unitId: 'u', what: 'Gasket', urgency: 'next' }], events: [{ id: 'e', unitId: 'u', kind: 'note', note: 'Loud at night' }] }, // prettier-ignore
      { tasks: [task('t', 'Coil cleaning', 'done'), task('t2', 'Drain', 'not_done', 'no key')] },
    );
    const lines = said(v);
    expect(lines).toHaveLength(5);
    expect(lines[0]).toMatch(/coil cleaning/i);
    expect(lines[1]).toMatch(/drain.*no key/i);
    expect(lines[2]).toBe('Loud at night');
    expect(lines[3]).toMatch(/^! .*Door hinge/);
    expect(lines[4]).toMatch(/^[^!].*Gasket/);
  });
  it('tells the box as it was met and left, and marks one too warm for food', () => {
    const [line] = said(visit({ readings: [box('before', 283.15), box('after', 277.15)] }));
    expect(line).toMatch(/^! .*50 °F.*39\.2 °F/);
    expect(said(visit({ readings: [box('after', 277.15)] }))[0]).toMatch(/^[^!].*39\.2 °F/);
    const empty = said(visit({ readings: [box('before', 283.15)], events: [{ id: 'e', unitId: 'u', kind: 'note', note: NO_FOOD }] }));
    expect(empty).toHaveLength(1);
    const told = said(visit({ foodWarnings: [{ id: 'w', unitId: 'u', boxK: 283.15, toldTo: 'Petra' }] }));
    expect(told[0]).toMatch(/^! .*50 °F.*Petra/);
  });
  it('says why a unit was not reached, in the words of the reader', () => {
    const v = visit({ outcomes: [{ unitId: 'u', outcome: 'could_not_reach', reason: 'locked' }] });
    expect(said(v)[0]).toMatch(/^! .*locked/);
    expect(whatWasDone(v, unit, US, signingIn('es'))[0]?.text).not.toBe(whatWasDone(v, unit, US)[0]?.text);
    expect(said(visit({ outcomes: [{ unitId: 'u', outcome: 'gone', reason: 'sold' }] }))[0]).toMatch(/^! .*sold/);
    expect(said(visit({ outcomes: [{ unitId: 'u', outcome: 'seen', reason: '' }] }))).toEqual([]);
  });
});

describe('what stands between a visit and its closing', () => {
  it('is said in one line a unit', () => {
    const open = (...tasks: object[]) =>
      missingToClose(visit({ arrivedAt: 'x', signature: {} }, { tasks })).map((m) => [m.code, m.message]);
    expect(open(task('t', 'Coil cleaning'))).toEqual([
      ['task_open', 'Line fridge: coil cleaning is neither done nor left undone for a reason.'],
    ]);
    expect(open(task('t', 'Coil cleaning'), task('t2', 'Drain'), task('t3', 'Gasket'))).toEqual([['task_open', 'Line fridge: coil cleaning, drain and gasket are neither done nor left undone for a reason.']]); // prettier-ignore
    expect(open(task('t', 'Coil cleaning', 'not_done', 'no key'))).toEqual([]);
    expect(missingToClose(visit()).map((m) => m.message)).toEqual([
      'Say when you arrived.',
      'Have someone sign, or say that nobody was there.',
    ]);
  });
});

let made = 0;
const entry = (kind: string, payload: object, id = `e${++made}`): Entry => ({ id, visitId: 'v', kind, madeAt: new Date(Date.UTC(2026, 10, 25, 15, ++made)).toISOString(), payload }) as unknown as Entry; // prettier-ignore
describe('entries laid over a visit', () => {
  const after = (...entries: Entry[]) => foldVisit(visit({}, { tasks: [task('t', 'Coil cleaning')] }), entries);
  it('take a standing task along once, and answer it', () => {
    const take = entry('task.take', { taskId: 't2', unitId: 'u' });
    expect(after(take, take).tasks.map((t) => [t.taskId, t.outcome])).toEqual([['t', 'planned'], ['t2', 'planned']]); // prettier-ignore
    expect(after(entry('task.take', { taskId: 'none', unitId: 'u' })).tasks).toHaveLength(1);
    expect(after(take, entry('task.done', { taskId: 't2' })).tasks[1]).toMatchObject({ outcome: 'done', reason: '' });
    expect(after(entry('task.not_done', { taskId: 't', reason: 'no key' })).tasks[0]).toMatchObject({
      outcome: 'not_done',
      reason: 'no key',
    });
  });
  it('strike what they name and nothing else', () => {
    const all = [entry('part.use', { what: 'Motor' }, 'p'), entry('follow_up.add', { what: 'Hinge' }, 'f'), entry('event.add', { kind: 'note', note: 'x' }, 'n'), entry('photo.attach', { bytes: 1 }, 'ph')]; // prettier-ignore
    const counts = (v: VisitOnFile) => [
      v.entries.parts.length,
      v.entries.followUps.length,
      v.entries.events.length,
      v.entries.photos.length,
    ];
    expect(counts(after(...all, ...all))).toEqual([1, 1, 1, 1]);
    expect((['part', 'follow_up', 'event', 'photo'] as const).map((what, i) => counts(after(...all, entry('entry.strike', { what, entryId: ['p', 'f', 'n', 'ph'][i] }))))).toEqual([[0, 1, 1, 1], [1, 0, 1, 1], [1, 1, 0, 1], [1, 1, 1, 0]]); // prettier-ignore
    expect(counts(after(...all, entry('entry.strike', { what: 'part', entryId: 'f' })))).toEqual([1, 1, 1, 1]);
  });
  it('of another visit change nothing', () => {
    const other = { ...entry('task.done', { taskId: 't' }), visitId: 'w' };
    expect(after(other).tasks[0]?.outcome).toBe('planned');
  });
  it('say one outcome of a unit, the last', () => {
    const said = (outcome: string) => entry('unit.outcome', { unitId: 'u', outcome, reason: '' });
    expect(after(said('gone'), said('seen')).entries.outcomes.map((o) => o.outcome)).toEqual(['seen']);
  });
});

describe('readings in a technician’s own units', () => {
  it('go there and back, and are written as an instrument shows them', () => {
    for (const own of [US, METRIC]) for (const field of ['airInK', 'headPaGauge', 'ampsA', 'steadyMinutes'] as const) expect(fromOwn(field, toOwn(field, 310, own), own)).toBeCloseTo(310, 9); // prettier-ignore
    expect([ownText('airInK', 310.928, US), ownText('airInK', 310.928, METRIC), ownText('headPaGauge', 1_227_267, US), ownText('headPaGauge', 1_227_267, METRIC), ownText('airInK', 255.35, METRIC), ownText('airInK', 273.149, METRIC), ownText('ampsA', 4.25, US), ownText('steadyMinutes', 15, US)]).toEqual(['100 °F', '37.8 °C', '178 psig', '12.27 bar', '−17.8 °C', '0 °C', '4.3 A', '15 min']); // prettier-ignore
    expect([unitOf('airInK', METRIC), unitOf('headPaGauge', METRIC), unitOf('ampsA', US), unitOf('steadyMinutes', US)]).toEqual(['°C', 'bar', 'A', 'min']); // prettier-ignore
    expect([ownDifference(10, US), ownDifference(10, METRIC)]).toEqual([18, 10]);
  });
});

it('parts that a quote counts on are those nobody has written down, for a unit where it is one', () => {
  const job = (booked: boolean, unitIds: string[], parts: object[]) => ({ id: 'j', booked, unitIds, parts });
  const part = (partId: string | null, what: string) => ({ partId, number: '', what, quantity: 1 });
  const v = visit({ parts: [{ id: 'x', partId: 'p1', what: 'Motor' }, { id: 'y', partId: null, what: 'Hinge' }] }, { jobs: [job(true, ['u'], [part('p1', 'Motor'), part('p2', 'Blade'), part(null, 'Hinge')]), job(true, ['u', 'w'], [part(null, 'Gasket')]), job(false, ['u'], [part('p3', 'Cord')])] }); // prettier-ignore
  expect(partsForeseen(v).map((p) => [p.what, p.unitId])).toEqual([['Blade', 'u'], ['Gasket', null]]); // prettier-ignore
});
