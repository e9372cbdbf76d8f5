import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { expect, it } from 'vitest';
import { screens } from '@/esbuild.config.mjs';
import { isOfFleet } from '@/tests/support/round-scripts';

/** What a tablet of the slowest kind was found to open in a second; `bench round` measures the same over the line. */
const MOST_KB = 170;

it('comes as no more script than a slow tablet opens in time, gzipped, with the gases of one fleet', async () => {
  const { outputFiles = [] } = await build({ ...screens({ development: false, outdir: 'round-app' }), write: false });
  const scripts = outputFiles.filter((f) => isOfFleet(f.path));
  // The round, its later screens, the estimate, the label reader, and four gases.
  expect(scripts.length).toBeGreaterThan(10);
  const kilobytes = scripts.reduce((sum, f) => sum + gzipSync(f.contents).byteLength, 0) / 1000;
  expect(kilobytes).toBeGreaterThan(100);
  expect(kilobytes).toBeLessThanOrEqual(MOST_KB);
});
