import { execSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { z } from 'zod';

const dockerfile = readFileSync('Dockerfile', 'utf8');
const [, command] = /^RUN (npm sbom .+) > bill-of-materials\.json$/m.exec(dockerfile) ?? [];

const bill = z.object({
  bomFormat: z.literal('CycloneDX'),
  components: z.array(z.object({ name: z.string(), version: z.string() })),
});
const lock = z.object({ packages: z.record(z.string(), z.object({ version: z.string().optional() })) });

it('the image carries a bill of all that it is made of and built with, as the lock file has it', () => {
  expect(dockerfile).toContain('COPY --from=build /app/bill-of-materials.json ./');
  const { components } = bill.parse(JSON.parse(execSync(command ?? 'false', { encoding: 'utf8', maxBuffer: 1 << 26 })));
  const { packages } = lock.parse(JSON.parse(readFileSync('package-lock.json', 'utf8')));
  const locked = Object.entries(packages)
    .filter(([path]) => path !== '')
    .map(([path, { version }]) => `${path.split('node_modules/').at(-1)}@${version}`);
  expect(locked.length).toBeGreaterThan(100);
  expect([...new Set(components.map((c) => `${c.name}@${c.version}`))].toSorted()).toEqual([...new Set(locked)].toSorted());
});
