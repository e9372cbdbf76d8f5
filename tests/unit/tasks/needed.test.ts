import { describe, expect, it } from 'vitest';
import { aspectWords, ungradedCoil } from '@/lib/core/tasks/needed';

describe('a coil cleaning without its coil', () => {
  const done = { kindKey: 'coil_cleaning', unitId: 'u' };
  const box = { kind: 'reach_in', condenserKind: 'fin_and_tube' } as const;
  const look = (phase: string, grade: string | null, unitId = 'u', aspect = 'coil') => ({ unitId, aspect, phase, grade });
  const both = [look('found', 'matted'), look('left', 'bare')];

  it('asks for the grade as found and as left', () => {
    expect(ungradedCoil(done, box, [])).toEqual(['the coil as found', 'the coil as left']);
    expect(ungradedCoil(done, box, [look('found', 'matted')])).toEqual(['the coil as left']);
    expect(ungradedCoil(done, box, [look('left', 'bare')])).toEqual(['the coil as found']);
    expect(ungradedCoil(done, box, both)).toEqual([]);
    // Asked all the same while the unit is not at hand.
    expect(ungradedCoil(done, undefined, [])).toHaveLength(2);
  });

  it('takes no other unit’s, no other aspect’s and no look without a grade for it', () => {
    const strange = [look('found', 'matted', 'other'), look('found', 'sound', 'u', 'condenser_fan'), look('found', null)];
    expect(ungradedCoil(done, box, [...strange, look('left', 'bare')])).toEqual(['the coil as found']);
  });

  it('asks nothing of other tasks, nor of a condenser without fins to see', () => {
    expect(ungradedCoil({ ...done, kindKey: 'drain_inspection' }, box, [])).toEqual([]);
    expect(ungradedCoil(done, { ...box, condenserKind: 'water_cooled' }, [])).toEqual([]);
  });

  it('says aspects as people do', () => expect(aspectWords(['ice', 'drain'])).toBe('ice on the low side and drain and pan'));
});
