import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { countPlaywright, countVitest } from '../../../scripts/support/reports.mjs';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(os.tmpdir(), 'rimebook-reports-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function file(content: unknown) {
  const name = path.join(folder, 'report.json');
  writeFileSync(name, JSON.stringify(content));
  return name;
}

const vitest = { numPassedTests: 7, numFailedTests: 1, numPendingTests: 2, numTodoTests: 0 };
const failedFile = { status: 'failed', assertionResults: [{ status: 'failed' }, { status: 'passed' }] };
const brokenFile = { status: 'failed', assertionResults: [] };

describe('what vitest reports', () => {
  it('counts tests', () => {
    const report = file({ ...vitest, testResults: [failedFile] });
    expect(countVitest(report, 1)).toEqual({ passed: 7, failed: 1, skipped: 2 });
  });

  it('counts a file that could not be loaded as a failure', () => {
    const report = file({ ...vitest, testResults: [failedFile, brokenFile] });
    expect(countVitest(report, 1).failed).toBe(2);
  });

  it('counts a bad end without a failed test as a failure', () => {
    const report = file({ ...vitest, numFailedTests: 0, testResults: [] });
    expect(countVitest(report, 1).failed).toBe(1);
    expect(countVitest(report, 0).failed).toBe(0);
  });

  it('counts a missing report as a failure', () => {
    expect(countVitest(path.join(folder, 'none.json'), 0)).toEqual({ passed: 0, failed: 1, skipped: 0 });
  });
});

describe('what Playwright reports', () => {
  const second = (title: string, status: string, message: string) => ({
    title,
    tests: [
      {
        status: 'flaky',
        results: [
          { status, errors: [{ message }] },
          { status: 'passed', errors: [] },
        ],
      },
    ],
  });
  const stats = { expected: 4, flaky: 1, unexpected: 0, skipped: 1 };

  it('counts a test that passed at its second try as failed, and names it', () => {
    const specs = [second('books a visit', 'failed', 'expected 3 to be 4')];
    const report = file({ stats, suites: [{ file: 'week.spec.ts', suites: [{ specs }] }] });
    expect(countPlaywright(report, 0)).toEqual({ passed: 4, failed: 1, skipped: 1, flaky: ['week.spec.ts: books a visit'], gone: [] });
  });

  it('lets the second try count where the browser went away, and only then', () => {
    const gone = [second('books a visit', 'failed', 'page.goto: Target page, context or browser has been closed')];
    expect(countPlaywright(file({ stats, suites: [{ file: 'week.spec.ts', specs: gone }] }), 0)).toMatchObject({
      passed: 5,
      failed: 0,
      flaky: [],
    });
    const late = [second('books a visit', 'timedOut', 'page.goto: Target page, context or browser has been closed')];
    expect(countPlaywright(file({ stats, suites: [{ file: 'week.spec.ts', specs: late }] }), 0)).toMatchObject({ passed: 4, failed: 1 });
  });

  it('counts a server that did not start as a failure', () => {
    const report = file({ stats: { expected: 0, flaky: 0, unexpected: 0, skipped: 0 } });
    expect(countPlaywright(report, 1).failed).toBe(1);
  });
});
