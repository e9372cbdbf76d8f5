import { describe, expect, it } from 'vitest';
import { gradeLabel, gradeWords, isClean } from '@/lib/core/findings/grades';
import { fanDead, seenAt } from '@/lib/core/findings/seen';

const look = (aspect: Parameters<typeof gradeLabel>[0], grade: string | null, phase = 'found') => ({ aspect, grade, phase });

describe('what a reading sees', () => {
  it('before the work what was found, after it what was left', () => {
    const looks = [look('coil', 'packed'), look('coil', 'bare', 'left'), look('ice', 'part_iced'), look('ice', 'dry', 'left')];
    expect(seenAt(looks, 'before')).toMatchObject({ coilGrade: 'packed', iceGrade: 'part_iced' });
    expect(seenAt(looks, 'after')).toMatchObject({ coilGrade: 'bare', iceGrade: 'dry' });
  });

  it('after the work: a coil that nobody looked at again is not known, the rest is as it was met', () => {
    const looks = [
      look('coil', 'packed'),
      look('condenser_fan', 'failed'),
      look('evaporator_fan', 'worn'),
      look('air_path', 'blocked'),
      look('evaporator_coil', 'clogged'),
    ];
    expect(seenAt(looks, 'after')).toEqual({
      coilGrade: null,
      fanGrade: 'failed',
      evaporatorFanGrade: 'worn',
      airPathGrade: 'blocked',
      evaporatorCoilGrade: 'clogged',
      iceGrade: null,
    });
  });

  it('nothing of what was not looked at, nor of another phase before the work', () => {
    expect(seenAt([look('coil', null), look('ice', 'dry', 'left')], 'before')).toMatchObject({ coilGrade: null, iceGrade: null });
  });

  it('of two looks at one part the first, and of the phase that is asked for', () => {
    const looks = [look('ice', 'dry', 'left'), look('ice', 'block'), look('gasket', 'failed'), look('coil', 'filmed', 'left')];
    expect(seenAt(looks, 'before')).toMatchObject({ iceGrade: 'block', coilGrade: null });
    expect(seenAt(looks, 'after')).toMatchObject({ iceGrade: 'dry', coilGrade: 'filmed' });
    expect(seenAt([look('coil', 'packed'), look('coil', null, 'left')], 'after').coilGrade).toBeNull();
  });

  it('a dead fan, and no other, makes a reading blind', () => {
    expect(fanDead({ fanGrade: 'failed' })).toBe(true);
    expect(fanDead({ fanGrade: null })).toBe(false);
    expect(fanDead(seenAt([look('evaporator_fan', 'failed')], 'before'))).toBe(false);
  });
});

describe('grades in words', () => {
  it('has the grade’s own label, or what was written where it is none', () => {
    expect(gradeLabel('coil', 'packed')).toBe('Packed');
    expect(gradeLabel('coil', 'purple')).toBe('purple');
    expect(gradeWords({ aspect: 'coil', grade: 'packed' })).toBe('packed');
    expect(gradeWords({ aspect: 'coil', grade: null })).toBe('not looked at');
  });

  it('clean ends where the aspect says, and what is no grade is not clean', () => {
    expect(isClean('coil', 'bare')).toBe(true);
    expect(isClean('coil', 'furred')).toBe(true);
    expect(isClean('coil', 'matted')).toBe(false);
    expect(isClean('coil', 'purple')).toBe(false);
  });
});
