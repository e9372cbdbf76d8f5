import { describe, expect, it } from 'vitest';
import {
  ASPECT_INFO,
  ASPECTS,
  FAILURE_ASPECTS,
  GRADE_NAMES,
  gradeIndex,
  isClean,
  isSevere,
  isStopped,
  stoppedGrades,
} from '@/lib/core/findings/grades';
import { fanDead, seenAt } from '@/lib/core/findings/seen';
import { enumOf } from '../../support/prisma-schema';

describe('what grades mean', () => {
  it('is the database’s own list', () => {
    expect(enumOf('Aspect')).toEqual(ASPECTS);
    expect(enumOf('Grade').sort()).toEqual([...GRADE_NAMES].sort());
  });

  it.each(ASPECTS)('of %s runs from clean over stopped to severe', (aspect) => {
    const { grades, cleanTo, stoppedFrom, severeFrom } = ASPECT_INFO[aspect];
    const [clean, stopped, severe] = [cleanTo, stoppedFrom, severeFrom].map((g) => gradeIndex(aspect, g)) as [number, number, number];
    expect(clean).toBeGreaterThanOrEqual(0);
    expect(stopped).toBeGreaterThan(clean);
    expect(severe).toBeGreaterThanOrEqual(stopped);
    expect(grades.length).toBeGreaterThan(severe);
    for (const { grade } of grades) expect(isClean(aspect, grade) && isStopped(aspect, grade)).toBe(false);
    expect(isClean(aspect, 'sparkling') || isStopped(aspect, 'sparkling') || isSevere(aspect, 'sparkling')).toBe(false);
  });

  it('is what it was before it stood in a table', () => {
    expect(stoppedGrades('coil')).toEqual(['matted', 'packed']);
    expect(stoppedGrades('drain')).toEqual(['blocked', 'frozen', 'broken']);
    expect(stoppedGrades('ice')).toEqual(['bridged', 'block']);
    expect(isSevere('ice', 'bridged')).toBe(false);
    expect(isSevere('coil', 'packed')).toBe(true);
    expect([...FAILURE_ASPECTS].sort()).toEqual(['drain', 'ice']);
  });
});

describe('the grades that hold at a reading', () => {
  const look = (aspect: (typeof ASPECTS)[number], grade: string | null, phase = 'found') => ({ aspect, grade, phase });

  it('are those met, before the work; those left, after it, a coil’s never the old one', () => {
    const looks = [look('coil', 'packed'), look('condenser_fan', 'failed'), look('evaporator_fan', 'sound'), look('coil', 'bare', 'left')];
    expect(seenAt(looks, 'before')).toMatchObject({ coilGrade: 'packed', fanGrade: 'failed', evaporatorFanGrade: 'sound' });
    expect(seenAt(looks, 'after')).toMatchObject({ coilGrade: 'bare', fanGrade: 'failed' });
    expect(seenAt(looks.slice(0, 3), 'after').coilGrade).toBeNull();
  });

  it('say that the condenser fan was dead until somebody wrote down that it turns', () => {
    const dead = [look('condenser_fan', 'failed')];
    expect(fanDead(seenAt(dead, 'before'))).toBe(true);
    expect(fanDead(seenAt(dead, 'after'))).toBe(true);
    expect(fanDead(seenAt([...dead, look('condenser_fan', 'sound', 'left')], 'after'))).toBe(false);
    expect(fanDead(seenAt([look('evaporator_fan', 'failed')], 'before'))).toBe(false);
    expect(fanDead(seenAt([look('condenser_fan', null)], 'before'))).toBe(false);
  });
});
