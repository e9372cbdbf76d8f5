import { afterEach, beforeEach, expect, vi } from 'vitest';

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
