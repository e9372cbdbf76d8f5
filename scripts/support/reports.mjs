import { existsSync, readFileSync } from 'node:fs';

/** @typedef {{ passed: number, failed: number, skipped: number }} Count */

const read = (file) => (existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : undefined);

/** A runner that ended badly has failed, even where no single test could be counted. */
const atLeastOne = (count, code) => ({ ...count, failed: code === 0 ? count.failed : Math.max(count.failed, 1) });

/**
 * What vitest's JSON report counts. A file that could not be loaded has no tests, and counts as one failure.
 * @param {string} file @param {number} code vitest's exit code
 * @returns {Count}
 */
export function countVitest(file, code) {
  const report = read(file);
  if (!report) return { passed: 0, failed: 1, skipped: 0 };
  const broken = report.testResults.filter((one) => one.status === 'failed' && one.assertionResults.every((a) => a.status !== 'failed'));
  const failed = report.numFailedTests + broken.length;
  const skipped = report.numPendingTests + report.numTodoTests;
  return atLeastOne({ passed: report.numPassedTests, failed, skipped }, code);
}

/**
 * What Playwright's JSON report counts. A test that passed at its second try has passed.
 * @param {string} file @param {number} code Playwright's exit code
 * @returns {Count}
 */
export function countPlaywright(file, code) {
  const report = read(file);
  if (!report) return { passed: 0, failed: 1, skipped: 0 };
  const { expected, flaky, unexpected, skipped } = report.stats;
  return atLeastOne({ passed: expected + flaky, failed: unexpected, skipped }, code);
}
