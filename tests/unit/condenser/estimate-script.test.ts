import { execFile } from 'node:child_process';
import { mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const root = path.join(import.meta.dirname, '../../..');
type Run = { code: number; out: string; err: string };

/** Runs the script as its user would. */
function run(...args: string[]): Promise<Run> {
  const cli = path.join(root, 'node_modules/tsx/dist/cli.mjs');
  return new Promise((resolve) => {
    execFile(process.execPath, [cli, 'scripts/estimate.ts', ...args], { cwd: root }, (error, out, err) =>
      resolve({ code: error ? Number(error.code ?? -1) : 0, out, err }),
    );
  });
}

async function file(text: string): Promise<string> {
  const name = path.join(await mkdtemp(path.join(tmpdir(), 'estimate-')), 'log.csv');
  await writeFile(name, text);
  return name;
}

const HEAD = 'unit,timestamp,refrigerant,head_psig,suction_psig,air_in_f,state';
const ROWS = [
  'A,2026-06-01 10:00,R-134a,146,20,85,clean',
  'A,2026-06-01 10:15,R-134a,147,20,85.3,clean',
  'A,2026-06-02 10:00,R-134a,180,21,85,dirty',
];

describe('scripts/estimate.ts', { timeout: 60_000 }, () => {
  it('prints a row for a row and ends with 0', async () => {
    const { code, out, err } = await run(await file([HEAD, ...ROWS].join('\n')));
    expect(err).toBe('');
    expect(code).toBe(0);
    const lines = out.trim().split('\n');
    expect(lines).toHaveLength(4);
    expect(lines[0]).toMatch(/^line,unit,timestamp,state,condensing_c,.*conductance_ratio,conductance_ratio_lo,.*status$/);
    const cells = lines[3]!.split(',');
    const ratio = Number(cells[lines[0]!.split(',').indexOf('conductance_ratio')]);
    expect(ratio).toBeGreaterThan(0.6);
    expect(ratio).toBeLessThan(0.72);
    expect(cells.at(-1)).toBe('ok');
  });

  it('names a column and a row it cannot read, goes on, and ends with 1', async () => {
    const rows = [`${HEAD},mood`, ...ROWS.map((r) => `${r},fine`), 'A,2026-06-03,R-134a,lots,20,85,dirty,fine'];
    const { code, out, err } = await run(await file(rows.join('\n')));
    expect(code).toBe(1);
    expect(err).toMatch(/:1: mood: unknown column/);
    expect(err).toMatch(/:5: head_psig: "lots" is not a number/);
    expect(out.trim().split('\n')).toHaveLength(5);
    expect(out).toMatch(/^5,.*unreadable$/m);
  });

  it('speaks JSON, and names the likeliest cause where it is asked for', async () => {
    const { code, out } = await run(await file([HEAD, ...ROWS].join('\n')), '--json', '--causes');
    expect(code).toBe(0);
    const { rows, problems } = JSON.parse(out) as { rows: Record<string, unknown>[]; problems: unknown[] };
    expect(rows).toHaveLength(3);
    expect(problems).toEqual([]);
    expect(rows[2]).toMatchObject({ unit: 'A', state: 'dirty', status: 'ok', likely_cause: 'coil_fouling' });
    expect(rows[0]).toMatchObject({ likely_cause: 'nothing' });
  });

  it('ends with 2 when nothing can be done', async () => {
    expect((await run()).code).toBe(2);
    expect(await run('no-such-file.csv')).toMatchObject({ code: 2, out: '' });
    expect((await run(await file('unit,colour\nA,red\n'))).code).toBe(2);
  });
});
