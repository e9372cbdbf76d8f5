import { describe, expect, it } from 'vitest';
import { aspectsOf, coilWords, type has, SIDE_LABEL, SIDES, SOUND_TOGETHER } from '@/lib/core/findings/for-unit';
import { ASPECTS, bestGrade, GRADES, isGradeOf } from '@/lib/core/findings/grades';
import { TRIP_CAUSE_LABEL, TRIP_CAUSES } from '@/lib/core/findings/trip-causes';

const air = (kind: Parameters<typeof has>[0]['kind']) => ({ kind, condenserKind: 'fin_and_tube' as const });

describe('what there is to look at on a unit', () => {
  it('a cabinet: condenser, low side and box, in the order of the work', () => {
    expect(aspectsOf(air('reach_in'))).toEqual([
      { side: 'high', aspects: ['coil', 'condenser_fan', 'air_path'] },
      { side: 'low', aspects: ['ice', 'evaporator_coil', 'evaporator_fan', 'drain'] },
      { side: 'box', aspects: ['gasket'] },
    ]);
  });

  it('an ice machine: its water, and its drain; a remote unit its condenser alone', () => {
    expect(aspectsOf(air('ice_machine')).map((s) => s.aspects)).toEqual([
      ['coil', 'condenser_fan', 'air_path'],
      ['scale', 'float'],
      ['drain'],
    ]);
    expect(aspectsOf(air('remote_condensing_unit'))).toEqual([{ side: 'high', aspects: ['coil', 'condenser_fan', 'air_path'] }]);
  });

  it('nothing that air goes through where water cools', () => {
    expect(aspectsOf({ kind: 'reach_in', condenserKind: 'water_cooled' }).map((s) => s.side)).toEqual(['low', 'box']);
    expect(aspectsOf({ kind: 'remote_condensing_unit', condenserKind: 'water_cooled' })).toEqual([]);
  });

  it('every side, and every cause of a trip, has its words', () => {
    expect(SIDES.map((s) => SIDE_LABEL[s])).toEqual(['High side', 'Water side', 'Low side', 'Box']);
    expect(TRIP_CAUSES.map((c) => TRIP_CAUSE_LABEL[c])).toEqual([
      'Dirty coil',
      'Condenser fan',
      'Air shut in or too hot',
      'Charge, or air in the system',
      'The cut-out itself',
    ]);
  });

  it('one word for all that is sound goes to parts that can be sound, never to dirt', () => {
    for (const aspect of SOUND_TOGETHER) expect(bestGrade(aspect)).toBe(aspect === 'air_path' ? 'open' : 'sound');
    expect(SOUND_TOGETHER).toHaveLength(ASPECTS.filter((a) => isGradeOf(a, 'sound')).length + 1);
    expect(isGradeOf('coil', 'sound')).toBe(false);
  });
});

describe('how a coil’s grade is told', () => {
  const grades = GRADES.coil.map((g) => g.grade);

  it('by a lamp where one goes behind it, and in words of its own where none does', () => {
    expect(coilWords('fin_and_tube', true)).toBeNull();
    expect(coilWords('fin_and_tube', false)?.packed).toMatch(/paper falls off nearly everywhere/);
    expect(coilWords('microchannel', true)).toEqual(coilWords('fin_and_tube', false));
    expect(coilWords('wire_and_tube', true)?.matted).toMatch(/bridges the gaps/);
  });

  it.each(['microchannel', 'wire_and_tube'] as const)('%s: each grade by something that another is not told by', (kind) => {
    const texts = grades.map((g) => coilWords(kind, false)?.[g] ?? '');
    expect(new Set(texts).size).toBe(grades.length);
    for (const one of texts) expect(one).toMatch(/^[A-Z].{12,}\.$/);
    expect(texts.join(' ')).not.toMatch(/lamp/);
  });
});
