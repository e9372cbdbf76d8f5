import fc from 'fast-check';
import { afterAll, afterEach, beforeEach, expect, vi } from 'vitest';

// The same cases every time; another number looks elsewhere.
fc.configureGlobal({ seed: Number(process.env.FC_SEED ?? 20261125) });

// A console.error is a defect nobody saw: make it a failed test.
let errors: unknown[][] = [];
beforeEach(() => {
  errors = [];
  vi.spyOn(console, 'error').mockImplementation((...args) => void errors.push(args));
});
afterEach(() => {
  const seen = errors;
  vi.restoreAllMocks();
  expect(seen, 'console.error was called').toEqual([]);
});
// The files of one worker share a process: nobody finds another's environment, clock or browser there.
afterAll(() => {
  vi.useRealTimers();
  vi.unstubAllEnvs();
  vi.unstubAllGlobals();
});
