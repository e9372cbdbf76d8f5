import { describe, expect, it } from 'vitest';
import { missingToClose, NO_FOOD, openFinds, stillToSay, untoldFood, answeredTasks, type UnitOnFile, type VisitOnFile } from '@/lib/core/tablet'; // prettier-ignore
import { jobsUnsaid, lacksForTask } from '@/lib/core/tablet/unit-work';
import { pastSaving } from '@/lib/core/tablet/past-saving';
import { whatWasDone } from '@/lib/core/tablet/what-was-done';

const US = { temperatureUnit: 'F', pressureUnit: 'psig' } as const;
const unitOf = (id: string, over: object = {}) => ({ id, name: `Fridge ${id}`, kind: 'reach_in', condenserKind: 'fin_and_tube', application: 'medium', tasks: [], past: [], ...over }) as unknown as UnitOnFile; // prettier-ignore
const [a, b] = [unitOf('a'), unitOf('b')];
const task = (unitId: string, kindKey: string, outcome = 'planned') => ({ taskId: `${unitId} ${kindKey}`, unitId, kindKey, label: kindKey === 'coil_cleaning' ? 'Coil cleaning' : 'Drain inspection', outcome, reason: '', lowSide: false }); // prettier-ignore
const found = (unitId: string, aspect: string, grade: string | null, phase = 'found') => ({ id: unitId + aspect + phase, unitId, aspect, phase, grade, notLookedWhy: grade ? '' : 'No key', note: '', at: '' }); // prettier-ignore
const visit = (entries: object = {}, over: object = {}): VisitOnFile =>
  ({
    id: 'v', status: 'started', units: [a, b], tasks: [],
    entries: { arrivedAt: 'x', leftAt: null, findings: [], readings: [], outcomes: [], photos: [], signature: {}, parts: [], followUps: [], foodWarnings: [], events: [], ...entries },
    ...over,
  }) as unknown as VisitOnFile; // prettier-ignore
const box = (unitId: string, phase: string, boxK?: number) => ({ id: unitId + phase, unitId, phase, values: boxK === undefined ? {} : { boxK } }); // prettier-ignore

describe('of two units in a kitchen, one never answers for the other', () => {
  it('a grade answers its own unit’s task', () => {
    const v = visit({ findings: [found('b', 'drain', 'runs')] }, { tasks: [task('a', 'drain_inspection'), task('b', 'drain_inspection')] });
    expect(answeredTasks(v, a)).toEqual([]);
    expect(answeredTasks(v, b).map((t) => t.taskId)).toEqual(['b drain_inspection']);
    expect(openFinds(visit({ findings: [found('b', 'drain', 'frozen')] }), a)).toEqual([]);
  });

  it('a warm box is its own, and so is what was said of it', () => {
    const readings = [box('b', 'before', 285), box('a', 'before', 276), box('b', 'after', 282), box('a', 'after')];
    expect([untoldFood(visit({ readings }), a), untoldFood(visit({ readings }), b)]).toEqual([null, 285]);
    const elsewhere = { readings, foodWarnings: [{ unitId: 'a' }], events: [{ unitId: 'a', note: NO_FOOD }, { unitId: 'b', note: 'Loud' }] }; // prettier-ignore
    expect(untoldFood(visit(elsewhere), b)).toBe(285);
    expect(untoldFood(visit({ readings: [box('b', 'before', 285)] }), { ...b, kind: 'ice_machine' })).toBeNull();
    expect(stillToSay(visit({ readings })).map((s) => [s.unitId, s.step, s.message])).toEqual([
      ['b', 'leave', 'Fridge b: the box read too warm for food. Say who was told, or that there is no food in it.'],
    ]);
  });

  it('a cleaning that is done asks for its own grades; one still planned does not', () => {
    const done = visit({}, { tasks: [task('a', 'coil_cleaning', 'done'), task('b', 'coil_cleaning')] });
    const [first, ...rest] = stillToSay(done);
    expect(first).toMatchObject({ unitId: 'a', step: 'look' });
    expect(first?.message).toMatch(/^Fridge a: a coil cleaning needs the coil as found, the coil as left, .+, .+\.$/);
    expect(rest).toEqual([]);
    expect(stillToSay(visit({ outcomes: [{ unitId: 'a', outcome: 'gone' }] }, { tasks: done.tasks }))).toEqual([]);
    expect(stillToSay(visit({ outcomes: [{ unitId: 'b', outcome: 'gone' }] }, { tasks: done.tasks }))).toHaveLength(1);
    expect(stillToSay(visit({ findings: [found('b', 'drain', 'frozen')] }))).toEqual([
      { unitId: 'b', step: 'look', message: 'Fridge b: Drain and pan: frozen. Say what becomes of it.' },
    ]);
  });

  it('before closing, what was not looked at is named by its unit, until it is looked at or said why not', () => {
    const tasks = [task('a', 'coil_cleaning', 'done')];
    const [one, ...more] = missingToClose(visit({ findings: [found('b', 'ice', 'dry'), found('b', 'drain', 'runs')] }, { tasks }));
    expect(one).toMatchObject({ code: 'low_side', unitId: 'a', taskId: 'a coil_cleaning' });
    expect(one?.message).toMatch(/^Fridge a: coil cleaning is done, but not everything was looked at\. Grade .+ and .+, or say why not\.$/);
    expect(more).toEqual([]);
    expect(missingToClose(visit({ findings: [found('a', 'ice', 'dry'), found('a', 'drain', null)] }, { tasks }))).toEqual([]);
    const open = missingToClose(visit({}, { tasks: [task('a', 'drain_inspection'), task('gone', 'drain_inspection')] }));
    expect(open.map((m) => [m.taskId, m.message.split(':')[0]])).toEqual([
      ['a drain_inspection', 'Fridge a'],
      ['gone drain_inspection', 'A unit'],
    ]);
  });

  it('what a task lacks is said of the part', () => {
    const lacks = (kindKey: string, ...findings: object[]) => lacksForTask(visit({ findings }), a, { kindKey, unitId: 'a' });
    expect(lacks('coil_cleaning', found('a', 'ice', 'dry'), found('a', 'drain', 'runs'))).toEqual([
      'the coil as found',
      'the coil as left',
    ]);
    expect(lacks('of_our_own')).toEqual([]);
  });

  it('who signs reads of one what was noted of it, with food marked by its own box', () => {
    const v = visit({
      readings: [box('a', 'before', 283.15), box('b', 'before', 276)],
      findings: [found('a', 'drain', 'blocked'), found('b', 'drain', 'runs', 'left'), found('a', 'ice', null)],
      events: [{ id: 'e', unitId: 'b', kind: 'note', note: NO_FOOD }],
      followUps: [{ id: 'f', unitId: 'b', what: 'Hinge', urgency: 'now' }],
    });
    const lines = whatWasDone(v, a, US);
    expect(lines.map((l) => l.bad)).toEqual([true, true]);
    expect(lines[1]?.text).toMatch(/50 °F/);
    const empty = whatWasDone(visit({ readings: [box('a', 'before', 283.15)], events: [{ id: 'e', unitId: 'a', kind: 'note', note: NO_FOOD }] }), a, US); // prettier-ignore
    expect(empty[0]?.text).not.toBe(lines[1]?.text);
    expect(whatWasDone(v, b, US).map((l) => l.bad)).toEqual([false, true]);
  });

  it('a booked job asks for a word, one that is only on file does not', () => {
    const jobs = [{ id: 'j', booked: true }, { id: 'k', booked: true }, { id: 'l', booked: false }]; // prettier-ignore
    expect(jobsUnsaid(visit({ jobOutcomes: [{ jobId: 'k' }] }, { jobs })).map((j) => j.id)).toEqual(['j']);
    expect(jobsUnsaid(visit({}, { jobs })).map((j) => j.id)).toEqual(['j', 'k']);
    expect(jobsUnsaid(visit())).toEqual([]);
  });

  it('a coil is past saving by its last two cleanings alone, and not by one', () => {
    const past = (at: string, grade: string) => ({ at, findings: [{ aspect: 'coil', phase: 'left', grade }] });
    const of = (...list: object[]) => pastSaving(unitOf('a', { past: list }));
    expect(of(past('2026-06-01', 'packed'))).toBeNull();
    expect(of(past('2026-06-01', 'bare'), past('2026-03-01', 'packed'))).toBeNull();
    expect(of(past('2026-06-01', 'packed'), past('2026-03-01', 'bare'))).toBeNull();
    expect(of(past('2026-03-01', 'packed'), past('2026-06-01', 'matted'))).toBe('matted');
  });
});
