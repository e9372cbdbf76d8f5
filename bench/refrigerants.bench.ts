import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import {
  bubbleTemperature,
  dewPressure,
  dewTemperature,
  unwrap,
  liquid,
  REFRIGERANT_IDS,
  REFRIGERANTS,
  vapour,
  vapourAtEntropy,
} from '../lib/core/refrigerants';
import { exactSaturation } from '../lib/core/refrigerants/exact';
import type { ExactSaturation } from '../lib/core/refrigerants/solvers/exact';
import { densityFrom } from '../lib/core/refrigerants/solvers/density';
import { temperatureAtEntropy } from '../lib/core/refrigerants/solvers/entropy';
import type { BenchRow } from './types';

/** Best mean of many short batches, µs a call: what the code costs when nothing else has the core. */
function microseconds(call: (i: number) => unknown, batch: number, batches: number): number {
  let best = Infinity;
  let sink = 0;
  for (let k = 0; k < batches; k++) {
    const start = performance.now();
    for (let i = 0; i < batch; i++) sink += call(i) === undefined ? 1 : 0;
    best = Math.min(best, performance.now() - start);
  }
  if (sink > 0) throw new Error('A call gave nothing');
  return (best / batch) * 1e3;
}

const root = path.join(import.meta.dirname, '..');
const vary = (base: number, span: number, i: number) => base + span * ((i * 0.618034) % 1);

/** Four states and an isentropic compression, evaporating near −15 °C, condensing near 45 °C. */
function cycle(id: string, i: number): number {
  const evaporating = unwrap(dewPressure(id, vary(256, 4, i)));
  const condensing = unwrap(dewPressure(id, vary(316, 4, i)));
  const suction = unwrap(vapour(id, { T: 268, p: evaporating }));
  const discharge = unwrap(vapourAtEntropy(id, { p: condensing, s: suction.s }));
  const leaving = unwrap(liquid(id, { T: unwrap(bubbleTemperature(id, condensing)) - 5, p: condensing }));
  return (suction.h - leaving.h) / (discharge.h - suction.h);
}

/** The same cycle with every saturation point solved from the equations. */
function solvedCycle(exact: ExactSaturation, i: number): number {
  const { model } = exact;
  const evaporating = exact.dew(vary(256, 4, i))!;
  const dew = exact.dew(vary(316, 4, i))!;
  const suction = model.state(268, densityFrom(model, 268, evaporating.p, evaporating.rho));
  const saturated = model.state(vary(316, 4, i), dew.rho);
  const end = temperatureAtEntropy(model, dew.p, suction.s, saturated)!;
  const discharge = model.state(end.T, end.rho);
  const T = vary(316, 4, i) - 5;
  const leaving = model.state(T, densityFrom(model, T, dew.p, exact.bubble(T)!.rho));
  return (suction.h - leaving.h) / (discharge.h - suction.h);
}

/** Each call is at new temperatures, warm-started from the nearest solved one. */
function solverCost(id: string, call: (exact: ExactSaturation, i: number) => unknown): number {
  let i = 0;
  const solver = exactSaturation(id);
  return microseconds(() => call(solver, i++), 1, 200);
}

/** T from p by secant steps on the solved dew curve. */
function solvedTemperature(exact: ExactSaturation, p: number): number {
  let [a, b] = [280, 300];
  let fa = Math.log(exact.dew(a)!.p / p);
  for (let k = 0; k < 20; k++) {
    const fb = Math.log(exact.dew(b)!.p / p);
    if (Math.abs(fb) < 1e-11) break;
    const next = 1 / (1 / b - (fb * (1 / b - 1 / a)) / (fb - fa));
    [a, fa, b] = [b, fb, next];
  }
  return b;
}

const OWN_SOLVER = 'own iterative solver, same equations';

async function bundledLoad(): Promise<number> {
  const folder = await mkdtemp(path.join(tmpdir(), 'refrigerants-'));
  try {
    const file = path.join(folder, 'index.mjs');
    await build({
      entryPoints: [path.join(root, 'lib/core/refrigerants/index.ts')],
      bundle: true,
      minify: true,
      format: 'esm',
      outfile: file,
    });
    const probe = path.join(folder, 'probe.mjs');
    await writeFile(probe, `const t = performance.now(); await import('./index.mjs'); console.log(performance.now() - t);`);
    let best = Infinity;
    for (let k = 0; k < 8; k++) {
      const { stdout } = await promisify(execFile)(process.execPath, [probe]);
      best = Math.min(best, Number(stdout));
    }
    return best;
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** What a tablet downloads for these refrigerants: the shared code and each one's own files, gzipped. */
async function downloadSize(ids: readonly string[]): Promise<number> {
  const { metafile, outputFiles } = await build({
    entryPoints: [path.join(root, 'lib/core/refrigerants/fleet.ts')],
    bundle: true,
    minify: true,
    splitting: true,
    format: 'esm',
    platform: 'browser',
    write: false,
    metafile: true,
    outdir: 'out',
    absWorkingDir: root,
  });
  const needed = Object.entries(metafile.outputs).filter(([, output]) => {
    const data = /data\/(?:tables|equations)\/(.+)\.ts$/.exec(output.entryPoint ?? '');
    return !data || ids.includes(data[1]!);
  });
  return needed.reduce((sum, [name]) => {
    const file = outputFiles.find((f) => f.path === path.join(root, name));
    return sum + gzipSync(file!.contents, { level: 9 }).length;
  }, 0);
}

const BLENDS = REFRIGERANT_IDS.filter((id) => REFRIGERANTS[id]!.kind === 'blend');
const FLEET = ['R134a', 'R404A', 'R290', 'R448A'];

export const rows: BenchRow[] = [
  {
    name: 'R-134a: temperature from pressure',
    unit: 'µs',
    target: '< 0.5 µs',
    run: async () => ({
      value: microseconds((i) => dewTemperature('R134a', vary(2e5, 1e6, i)), 500, 2000),
      reference: { name: OWN_SOLVER, value: solverCost('R134a', (x, i) => solvedTemperature(x, vary(2e5, 1e6, i))) },
    }),
  },
  {
    name: 'R-134a: cycle point, four states and an isentropic compression',
    unit: 'µs',
    target: '< 30 µs',
    run: async () => ({
      value: microseconds((i) => cycle('R134a', i), 50, 2000),
      reference: { name: OWN_SOLVER, value: solverCost('R134a', solvedCycle) },
    }),
  },
  {
    name: 'R-448A: cycle point',
    unit: 'µs',
    target: '< 30 µs',
    run: async () => ({
      value: microseconds((i) => cycle('R448A', i), 50, 2000),
      reference: { name: OWN_SOLVER, value: solverCost('R448A', solvedCycle) },
    }),
  },
  {
    name: `Dew point, slowest of ${BLENDS.length} blends`,
    unit: 'µs',
    target: '< 1 µs',
    run: async () => ({
      value: Math.max(
        ...BLENDS.map((id) => microseconds((i) => dewTemperature(id, vary(2e5, 1e6, i)), 500, 500)),
        ...BLENDS.map((id) => microseconds((i) => dewPressure(id, vary(250, 70, i)), 500, 500)),
      ),
      reference: { name: `${OWN_SOLVER}, R-448A`, value: solverCost('R448A', (x, i) => x.dew(vary(250, 70, i))) },
    }),
  },
  {
    name: 'Loading the module with all 27 refrigerants',
    unit: 'ms',
    target: '< 30 ms',
    run: async () => ({ value: await bundledLoad() }),
  },
  {
    name: `Download for ${FLEET.join(', ')}, gzipped`,
    unit: 'kB',
    target: '< 60 kB',
    run: async () => ({ value: (await downloadSize(FLEET)) / 1000 }),
  },
];
