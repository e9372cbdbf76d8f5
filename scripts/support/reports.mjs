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

/** @returns {string[]} the journeys that a second try saved, by file and name */
function saved(suites, file) {
  return suites.flatMap((suite) => [
    ...saved(suite.suites ?? [], file ?? suite.file),
    ...(suite.specs ?? []).filter((s) => s.tests.some((t) => t.status === 'flaky')).map((s) => `${s.file ?? file}: ${s.title}`),
  ]);
}

/**
 * What Playwright's JSON report counts. A test that passed at its second try has failed: what fails now and then is
 * a defect, of the test or of the app.
 * @param {string} file @param {number} code Playwright's exit code
 * @returns {Count & { flaky: string[] }}
 */
export function countPlaywright(file, code) {
  const report = read(file);
  if (!report) return { passed: 0, failed: 1, skipped: 0, flaky: [] };
  const { expected, flaky, unexpected, skipped } = report.stats;
  const count = atLeastOne({ passed: expected, failed: unexpected + flaky, skipped }, code);
  return { ...count, flaky: saved(report.suites) };
}
