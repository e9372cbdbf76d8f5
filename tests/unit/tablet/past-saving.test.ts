import type { CoilGrade } from '@/lib/core/findings/grades';
import { expect, it } from 'vitest';
import { pastSaving } from '@/lib/core/tablet/past-saving';
import type { PastVisit } from '@/lib/core/tablet';

const visit = (at: string, left: CoilGrade | null | undefined, found: CoilGrade = 'packed'): PastVisit => ({
  visitId: at,
  at,
  by: 'June',
  readings: [],
  findings: [
    { aspect: 'coil', phase: 'found', grade: found, notLookedWhy: '' },
    ...(left === undefined ? [] : [{ aspect: 'coil' as const, phase: 'left' as const, grade: left, notLookedWhy: '' }]),
  ],
});

it('says so after two cleanings that left it closed, whatever lies between', () => {
  expect(pastSaving({ past: [visit('2026-06-01', 'matted'), visit('2026-03-01', 'packed')] })).toBe('matted');
  expect(pastSaving({ past: [visit('2026-06-01', 'packed'), visit('2026-05-01', undefined), visit('2026-03-01', 'matted')] })).toBe(
    'packed',
  );
  expect(pastSaving({ past: [visit('2026-03-01', 'matted'), visit('2026-06-01', 'packed')] })).toBe('packed');
});

it('says nothing of a coil found closed and cleaned, left closed once, or not looked at after', () => {
  expect(pastSaving({ past: [] })).toBeNull();
  expect(pastSaving({ past: [visit('2026-06-01', 'matted')] })).toBeNull();
  expect(pastSaving({ past: [visit('2026-06-01', 'bare'), visit('2026-03-01', 'packed'), visit('2026-01-01', 'packed')] })).toBeNull();
  expect(pastSaving({ past: [visit('2026-06-01', 'packed'), visit('2026-03-01', 'filmed'), visit('2026-01-01', 'packed')] })).toBeNull();
  expect(pastSaving({ past: [visit('2026-06-01', undefined), visit('2026-03-01', null), visit('2026-01-01', 'packed')] })).toBeNull();
});
