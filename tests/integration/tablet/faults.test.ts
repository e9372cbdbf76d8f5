import { execFile } from 'node:child_process';
import path from 'node:path';
import { promisify } from 'node:util';
import { expect, it } from 'vitest';

const ROOT = path.resolve(import.meta.dirname, '../../..');
const RUNS = 12;

// The whole thousand takes a quarter of an hour: scripts/sync-faults.ts --runs 1000.
it(`${RUNS} days on a bad line: nothing lost, nothing doubled, both ends equal`, { timeout: 300_000 }, async () => {
  const args = ['--conditions=react-server', '--import', 'tsx', 'scripts/sync-faults.ts', '--seed', '7', '--runs', String(RUNS), '--json'];
  const { stdout } = await promisify(execFile)(process.execPath, args, { cwd: ROOT, maxBuffer: 1e7 });
  const report = JSON.parse(stdout) as {
    runs: number;
    entries: number;
    faults: Record<string, number>;
    lost: number;
    doubled: number;
    unequal: number;
    problems: string[];
  };
  expect(report).toMatchObject({ runs: RUNS, lost: 0, doubled: 0, unequal: 0, problems: [] });
  expect(report.entries).toBeGreaterThan(RUNS * 5);
  const { dropped_before, dropped_after, duplicated, reordered, truncated_request, truncated_reply } = report.faults;
  for (const count of [dropped_before, dropped_after, duplicated, reordered, truncated_request, truncated_reply])
    expect(count).toBeGreaterThan(0);
});
