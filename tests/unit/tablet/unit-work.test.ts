import { describe, expect, it } from 'vitest';
import { askedFirst, fitsUnit } from '@/lib/core/entries/reading-fields';
import { aspectsOf, coilWords, has } from '@/lib/core/findings/for-unit';
import {
  answeredTasks,
  answeredUnplanned,
  lacksForCleaning,
  NO_FOOD,
  openFinds,
  READING_FIELDS,
  stillToSay,
  unplannedTasks,
  untoldFood,
  type FindingEntry,
  type UnitOnFile,
  type VisitOnFile,
} from '@/lib/core/tablet';

const standing = (kindKey: string) => ({ taskId: kindKey, kindKey, label: kindKey, minutes: 5, lowSide: false, dueOn: '2026-11-30' });
const unit = {
  id: 'u',
  name: 'Line fridge',
  kind: 'reach_in',
  condenserKind: 'fin_and_tube',
  application: 'medium',
  tasks: [] as object[],
} as UnitOnFile;
const task = (kindKey: string, outcome = 'planned') => ({ taskId: kindKey, unitId: 'u', kindKey, label: kindKey, outcome });
const found = (aspect: string, grade: string | null, phase = 'found') =>
  ({ id: `${aspect} ${phase}`, unitId: 'u', aspect, phase, grade, notLookedWhy: grade ? '' : 'No key', note: '', at: '' }) as FindingEntry;

function visit(over: {
  tasks?: object[];
  findings?: FindingEntry[];
  followUps?: object[];
  readings?: object[];
  events?: object[];
  foodWarnings?: object[];
  outcomes?: object[];
}): VisitOnFile {
  const { tasks = [], ...entries } = over;
  return {
    id: 'v',
    units: [unit],
    tasks,
    entries: { findings: [], followUps: [], readings: [], events: [], foodWarnings: [], outcomes: [], parts: [], photos: [], ...entries },
  } as unknown as VisitOnFile;
}

describe('grades answer tasks', () => {
  it('a drain graded is the drain inspection done; one not looked at is not', () => {
    const tasks = [task('drain_inspection'), task('evaporator_inspection')];
    expect(answeredTasks(visit({ tasks, findings: [found('drain', 'runs')] }), unit).map((t) => t.kindKey)).toEqual(['drain_inspection']);
    expect(answeredTasks(visit({ tasks, findings: [found('drain', null)] }), unit)).toEqual([]);
    expect(answeredTasks(visit({ tasks, findings: [found('ice', 'dry')] }), unit).map((t) => t.kindKey)).toEqual(['evaporator_inspection']);
  });

  it('a coil cleaning needs the coil as found and as left, and the low side', () => {
    const tasks = [task('coil_cleaning')];
    const all = [found('coil', 'matted'), found('coil', 'bare', 'left'), found('ice', 'dry'), found('drain', 'runs')];
    expect(answeredTasks(visit({ tasks, findings: all }), unit)).toHaveLength(1);
    for (const missing of all) {
      const findings = all.filter((f) => f !== missing);
      expect(answeredTasks(visit({ tasks, findings }), unit), missing.id).toEqual([]);
      expect(lacksForCleaning(visit({ tasks, findings }), unit), missing.id).toHaveLength(1);
    }
  });

  it('an answer given is left alone, and a kind that only hands can answer too', () => {
    const tasks = [task('drain_inspection', 'not_done'), task('ice_machine_cleaning'), task('of_our_own')];
    expect(answeredTasks(visit({ tasks, findings: [found('drain', 'runs'), found('ice', 'dry')] }), unit)).toEqual([]);
  });
});

describe('nothing bad is left without a word', () => {
  it('a stopped drain asks, until it is put right or work is asked for by its name', () => {
    const findings = [found('drain', 'frozen')];
    expect(openFinds(visit({ findings }), unit)).toEqual([{ aspect: 'drain', message: 'Drain and pan: frozen' }]);
    expect(openFinds(visit({ findings: [...findings, found('drain', 'runs', 'left')] }), unit)).toEqual([]);
    expect(openFinds(visit({ findings: [...findings, found('drain', 'blocked', 'left')] }), unit)).toHaveLength(1);
    expect(openFinds(visit({ findings, followUps: [{ unitId: 'u', what: 'Drain and pan: frozen' }] }), unit)).toEqual([]);
    expect(openFinds(visit({ findings, followUps: [{ unitId: 'u', what: 'Gaskets: failed' }] }), unit)).toHaveLength(1);
    expect(openFinds(visit({ findings, followUps: [{ unitId: 'other', what: 'Drain and pan: frozen' }] }), unit)).toHaveLength(1);
  });

  it('a matted coil is what the cleaning is for; one left matted asks', () => {
    expect(openFinds(visit({ findings: [found('coil', 'matted')] }), unit)).toEqual([]);
    expect(openFinds(visit({ findings: [found('coil', 'packed'), found('coil', 'matted', 'left')] }), unit)).toHaveLength(1);
    expect(openFinds(visit({ findings: [found('drain', 'slow'), found('ice', 'part_iced'), found('gasket', 'worn')] }), unit)).toEqual([]);
  });

  it('a box too warm for food asks who was told; none in it is an answer; a freezer is not asked', () => {
    const readings = [{ unitId: 'u', phase: 'before', values: { boxK: 281.5 } }];
    expect(untoldFood(visit({ readings }), unit)).toBe(281.5);
    expect(untoldFood(visit({ readings, foodWarnings: [{ unitId: 'u' }] }), unit)).toBeNull();
    expect(untoldFood(visit({ readings, events: [{ unitId: 'u', note: NO_FOOD }] }), unit)).toBeNull();
    expect(untoldFood(visit({ readings }), { ...unit, application: 'low' })).toBeNull();
    expect(untoldFood(visit({ readings: [{ unitId: 'u', phase: 'before', values: { boxK: 278 } }] }), unit)).toBeNull();
  });

  it('closing asks for each, with where to say it; a unit nobody reached asks for nothing', () => {
    const bad = {
      tasks: [task('coil_cleaning', 'done')],
      findings: [found('drain', 'blocked')],
      readings: [{ unitId: 'u', phase: 'after', values: { boxK: 282 } }],
    };
    expect(stillToSay(visit(bad)).map((s) => s.step)).toEqual(['look', 'look', 'leave']);
    expect(stillToSay(visit(bad))[0]?.message).toContain('the coil as found, the coil as left');
    expect(stillToSay(visit({ ...bad, outcomes: [{ unitId: 'u', outcome: 'could_not_reach' }] }))).toEqual([]);
  });
});

describe('a unit that nobody planned', () => {
  it('graded, has its task done all the same; one that is on the visit is no such task', () => {
    const unitWithTasks = { ...unit, tasks: [standing('drain_inspection'), standing('coil_cleaning')] };
    const findings = [found('drain', 'runs')];
    expect(answeredUnplanned(visit({ findings }), unitWithTasks).map((t) => t.taskId)).toEqual(['drain_inspection']);
    expect(answeredUnplanned(visit({ findings, tasks: [task('drain_inspection')] }), unitWithTasks)).toEqual([]);
    expect(unplannedTasks(visit({ tasks: [task('drain_inspection')] }), unitWithTasks).map((t) => t.taskId)).toEqual(['coil_cleaning']);
  });
});

describe('only what fits the unit', () => {
  it('no more is asked for before a cleaning counts than the unit has', () => {
    const graded = [found('coil', 'matted'), found('coil', 'bare', 'left')];
    const of = (kind: UnitOnFile['kind'], findings: FindingEntry[]) =>
      lacksForCleaning({ ...visit({ findings }), units: [{ ...unit, kind }] } as VisitOnFile, { ...unit, kind });
    expect(of('ice_machine', graded)).toEqual(['the drain']);
    expect(of('remote_condensing_unit', graded)).toEqual([]);
  });

  it('asks for water where water cools, for the harvest where ice is made, for no air and no box there', () => {
    const asked = (u: Parameters<typeof askedFirst>[1]) => READING_FIELDS.filter((f) => askedFirst(f, u));
    const sealed = { kind: 'reach_in', condenserKind: 'fin_and_tube', circuitAccess: 'sealed' } as const;
    expect(asked(sealed)).toEqual(['condensingClampK', 'airInK', 'boxK', 'steadyMinutes']);
    expect(asked({ ...sealed, condenserKind: 'water_cooled' })).toEqual([
      'condensingClampK',
      'waterInK',
      'waterOutK',
      'boxK',
      'steadyMinutes',
    ]);
    expect(asked({ ...sealed, kind: 'ice_machine' })).toEqual(['condensingClampK', 'airInK', 'harvestMinutes', 'steadyMinutes']);
    expect(READING_FIELDS.filter((f) => fitsUnit(f, { ...sealed, condenserKind: 'water_cooled' }))).not.toContain('roomAirK');
  });

  it('no fins on a water-cooled one, no gasket and no box fan on an ice machine or a roof unit', () => {
    expect(aspectsOf(unit).flatMap((s) => s.aspects)).toEqual([
      'coil',
      'condenser_fan',
      'air_path',
      'ice',
      'evaporator_coil',
      'evaporator_fan',
      'drain',
      'gasket',
    ]);
    expect(has({ kind: 'walk_in_cooler', condenserKind: 'water_cooled' }, 'coil')).toBe(false);
    expect(aspectsOf({ kind: 'ice_machine', condenserKind: 'fin_and_tube' }).flatMap((s) => s.aspects)).toEqual([
      'coil',
      'condenser_fan',
      'air_path',
      'scale',
      'float',
      'drain',
    ]);
    expect(aspectsOf({ kind: 'remote_condensing_unit', condenserKind: 'microchannel' }).map((s) => s.side)).toEqual(['high']);
  });

  it('no word of a lamp where none goes behind', () => {
    expect(coilWords('fin_and_tube', true)).toBeNull();
    for (const definitions of [coilWords('microchannel', true), coilWords('wire_and_tube', true), coilWords('fin_and_tube', false)]) {
      expect(Object.keys(definitions ?? {})).toEqual(['bare', 'filmed', 'furred', 'matted', 'packed']);
      expect(Object.values(definitions ?? {}).join(' ')).not.toMatch(/lamp|light/);
    }
  });
});
