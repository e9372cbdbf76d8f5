import { execFile } from 'node:child_process';
import path from 'node:path';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { compareIn } from '../../../scripts/simulation/compare';
import { WORLDS, type WorldKind } from '../../../scripts/simulation/worlds';

const run = promisify(execFile);
const script = (...args: string[]) =>
  run(process.execPath, ['--import', 'tsx', 'scripts/simulate-policy.ts', ...args], {
    cwd: path.resolve(import.meta.dirname, '../../..'),
  });

describe('policies tried on invented fleets', () => {
  it('give the same figures for the same seed, others for another', () => {
    const mild = WORLDS[0] as WorldKind;
    const a = compareIn(mild, [4], 0.75, 2);
    expect(compareIn(mild, [4], 0.75, 2)).toEqual(a);
    expect(compareIn(mild, [5], 0.75, 2).sides[1]?.costPerUnitYear).not.toBe(a.sides[1]?.costPerUnitYear);
    expect(a.sides.map((s) => s.policy)).toEqual([
      'the product',
      'fixed 90 days',
      'crude rule',
      'good simple rule',
      'best constant in hindsight',
      'knows units, not their luck',
      'the same, packed at $400',
      'the same, packed at $800',
      'the same, packed at $1200',
      'the same, packed at $2000',
    ]);
    // Nobody who chose one interval beforehand is cheaper than whoever chooses it afterwards, unit by unit.
    const cost = (name: string) => a.sides.find((s) => s.policy === name)?.costPerUnitYear ?? NaN;
    expect(cost('best constant in hindsight')).toBeLessThan(cost('fixed 90 days'));
    expect(a.cost.known.ratio).toBeCloseTo(cost('the product') / cost('knows units, not their luck'), 9);
    expect(a.cost.hindsight.ratio).toBeGreaterThanOrEqual(a.cost.known.ratio);
  }, 60_000);

  it('are held against hindsight and a rival that is possible, and say whether what is asked was met', async () => {
    const { stdout } = await script('--worlds', 'mild', '--seeds', '5', '--years', '0.5', '--kitchens', '1');
    const [, known, hindsight] = /^mean +\S+ ± \S+ +(\S+) ± \S+ +(\S+) ± /m.exec(stdout)?.map(Number) ?? [];
    expect(hindsight).toBeGreaterThanOrEqual(known ?? Infinity);
    expect(stdout).toContain(`at most 1.20 of it is asked, ${(hindsight ?? NaN) <= 1.2 ? 'met' : 'missed'}.`);
  }, 60_000);

  it('know ten worlds, and refuse what cannot be run', async () => {
    expect(WORLDS).toHaveLength(10);
    await expect(script('--seeds', 'many')).rejects.toMatchObject({ code: 2, stderr: expect.stringContaining('--seeds must be') });
    await expect(script('--worlds', 'flat')).rejects.toMatchObject({ code: 2, stderr: expect.stringContaining('no world "flat"') });
  }, 60_000);
});
