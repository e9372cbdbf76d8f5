import { execFile } from 'node:child_process';
import path from 'node:path';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { comparePolicies } from '../../../scripts/simulation/compare';

const run = promisify(execFile);
const script = (...args: string[]) =>
  run(process.execPath, ['--import', 'tsx', 'scripts/simulate-policy.ts', ...args], {
    cwd: path.resolve(import.meta.dirname, '../../..'),
  });

describe('policies tried on invented fleets', () => {
  it('give the same figures for the same seed, others for another', () => {
    const a = comparePolicies(4, 1, 0.75);
    expect(comparePolicies(4, 1, 0.75)).toEqual(a);
    expect(comparePolicies(5, 1, 0.75).fixed.costPerUnitYear).not.toBe(a.fixed.costPerUnitYear);
    expect(a.fixed.visitsPerUnitYear).toBeGreaterThan(2);
    expect(a.forecasts).toBeGreaterThan(20);
  }, 60_000);

  it('print as JSON, and refuse what cannot be run', async () => {
    const { stdout } = await script('--seed', '3', '--fleets', '1', '--years', '0.5', '--json');
    expect(JSON.parse(stdout)).toMatchObject({
      seed: 3,
      fleets: 1,
      years: 0.5,
      costs: { cleaning: 60 },
      fixed: { policy: 'fixed quarterly' },
      evidence: { policy: 'by evidence' },
    });
    await expect(script('--fleets', 'many')).rejects.toMatchObject({
      code: 2,
      stderr: expect.stringContaining('--fleets must be a whole number'),
    });
    await expect(script('--sed', '1')).rejects.toMatchObject({ code: 2 });
  }, 60_000);
});
