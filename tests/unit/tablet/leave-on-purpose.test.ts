import { afterEach, expect, it, vi } from 'vitest';
import { leaveOnPurpose, leavesOnPurpose } from '@/app/(tablet)/round/_lib/leave-on-purpose';

afterEach(() => void vi.useRealTimers());

it('asks nobody at a step of the round itself, and again at the next leaving', () => {
  vi.useFakeTimers();
  expect(leavesOnPurpose()).toBe(false);
  leaveOnPurpose();
  expect(leavesOnPurpose()).toBe(true);
  vi.advanceTimersByTime(60_000);
  expect(leavesOnPurpose()).toBe(false);
});
