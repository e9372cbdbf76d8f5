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

/** The browser went away by itself: the machine's doing, not the journey's. */
const BROWSER_GONE = /Target crashed|browser has been closed/i;
const browserGone = (test) =>
  (test.results ?? []).some((r) => r.status === 'failed' && (r.errors ?? []).some((e) => BROWSER_GONE.test(e.message ?? '')));

/** @returns {{ name: string, gone: boolean }[]} the journeys that a second try saved, by file and name */
function saved(suites = [], file = undefined) {
  return suites.flatMap((suite) => [
    ...saved(suite.suites, file ?? suite.file),
    ...(suite.specs ?? []).flatMap((s) =>
      s.tests.filter((t) => t.status === 'flaky').map((t) => ({ name: `${s.file ?? file}: ${s.title}`, gone: browserGone(t) })),
    ),
  ]);
}

/**
 * What Playwright's JSON report counts. A test that passed at its second try has failed: what fails now and then is
 * a defect, of the test or of the app. Only where the browser itself went away does the second try count.
 * @param {string} file @param {number} code Playwright's exit code
 * @returns {Count & { flaky: string[], gone: string[] }}
 */
export function countPlaywright(file, code) {
  const report = read(file);
  if (!report) return { passed: 0, failed: 1, skipped: 0, flaky: [], gone: [] };
  const { expected, flaky, unexpected, skipped } = report.stats;
  const again = saved(report.suites);
  const gone = again.filter((t) => t.gone).map((t) => t.name);
  const count = atLeastOne({ passed: expected + gone.length, failed: unexpected + flaky - gone.length, skipped }, code);
  return { ...count, flaky: again.filter((t) => !t.gone).map((t) => t.name), gone };
}
