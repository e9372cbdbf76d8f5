import { describe, expect, it } from 'vitest';
import {
  condenserTask,
  isForOtherCondenser,
  LEARNING_TASKS,
  learningTask,
  looksAt,
  neededBy,
  ridersOf,
  startingWeeks,
  TASK_KINDS,
  unlookedFor,
  usualTasks,
  withRiders,
} from '@/lib/core/tasks';

const task = (id: string, kindKey: string, unitId = 'u', over: { lowSide?: boolean; onVisit?: unknown } = {}) => ({
  id,
  kindKey,
  unitId,
  lowSide: kindKey === 'drain_inspection',
  onVisit: null,
  ...over,
});

describe('kinds of task', () => {
  it('are learned from what they look at; the shop’s own from nothing', () => {
    expect(LEARNING_TASKS).toEqual(['coil_cleaning', 'drain_inspection', 'evaporator_inspection']);
    expect(looksAt('drain_inspection')).toBe('drain');
    expect(looksAt('evaporator_inspection')).toBe('ice');
    expect(learningTask('water_filter_change')).toBeNull();
    expect(learningTask('ice_machine_cleaning')).toBeNull();
  });

  it('come with the kind of unit and start by its place', () => {
    const air = { condenserKind: 'fin_and_tube' } as const;
    const water = { condenserKind: 'water_cooled' } as const;
    expect(usualTasks({ kind: 'remote_condensing_unit', ...air })).toEqual(['coil_cleaning']);
    expect(usualTasks({ kind: 'remote_condensing_unit', ...water })).toEqual(['water_side_check']);
    expect(usualTasks({ kind: 'ice_machine', ...air })).toEqual(['coil_cleaning', 'drain_inspection', 'ice_machine_cleaning']);
    expect(usualTasks({ kind: 'walk_in_cooler', ...water })).toEqual(['drain_inspection', 'evaporator_inspection', 'water_side_check']);
    for (const unit of [air, water]) expect(isForOtherCondenser(condenserTask(unit), unit)).toBe(false);
    expect(isForOtherCondenser('coil_cleaning', water)).toBe(true);
    expect(isForOtherCondenser('drain_inspection', water)).toBe(false);
    expect(startingWeeks('coil_cleaning', 'fryer')).toBe(4);
    expect(startingWeeks('drain_inspection', 'fryer')).toBe(13);
    for (const k of TASK_KINDS) expect(k.minWeeks <= k.defaultWeeks && k.defaultWeeks <= k.maxWeeks).toBe(true);
  });
});

describe('the low side', () => {
  it('rides along with a coil cleaning of the same unit, unless it stands on another visit', () => {
    const all = [
      task('coil', 'coil_cleaning'),
      task('drain', 'drain_inspection'),
      task('far', 'drain_inspection', 'other'),
      task('gone', 'drain_inspection', 'u', { onVisit: {} }),
    ];
    expect(ridersOf(all, (t) => t.id === 'coil').map((t) => t.id)).toEqual(['drain']);
    expect(withRiders(all, ['coil', 'far']).map((t) => t.id)).toEqual(['coil', 'drain', 'far']);
    expect(ridersOf(all, (t) => t.id === 'drain')).toEqual([]);
  });

  it('must be looked at, or said why not, before a coil cleaning counts', () => {
    const done = { kindKey: 'coil_cleaning', unitId: 'u' };
    const box = { kind: 'reach_in', condenserKind: 'fin_and_tube' } as const;
    expect(unlookedFor(done, box, [])).toEqual(['ice', 'drain']);
    expect(unlookedFor(done, { ...box, kind: 'ice_machine' }, [])).toEqual(['drain']);
    expect(unlookedFor(done, { ...box, kind: 'remote_condensing_unit' }, [])).toEqual([]);
    expect(
      unlookedFor(done, box, [
        { unitId: 'u', aspect: 'drain' },
        { unitId: 'other', aspect: 'ice' },
      ]),
    ).toEqual(['ice']);
    expect(unlookedFor({ kindKey: 'water_filter_change', unitId: 'u' }, box, [])).toEqual([]);
    expect(unlookedFor({ ...done, kindKey: 'water_side_check' }, { ...box, condenserKind: 'water_cooled' }, [])).toEqual(['ice', 'drain']);
    expect(neededBy('ice')).toEqual(['coil cleaning', 'water side check']);
    expect(neededBy('gasket')).toEqual([]);
  });
});
