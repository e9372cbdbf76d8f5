import { existsSync, readFileSync } from 'node:fs';
import { inProject } from './paths.mjs';
import { run } from './run.mjs';
import { Plain, step } from './say.mjs';

const TRIES = 3;

/**
 * Whether node_modules holds what package-lock.json asks for, by npm's own record of what it put there.
 * Packages for other platforms are optional and may be missing.
 */
function isInstalled() {
  const record = inProject('node_modules/.package-lock.json');
  if (!existsSync(record)) return false;
  const wanted = JSON.parse(readFileSync(inProject('package-lock.json'), 'utf8')).packages;
  const present = JSON.parse(readFileSync(record, 'utf8')).packages;
  return Object.entries(wanted).every(([place, { version, optional }]) => {
    if (place === '') return true;
    return present[place] ? present[place].version === version : optional;
  });
}

/** Install the packages that package-lock.json names, if they are not there. */
export async function ensureInstalled() {
  // The container's image holds what it needs, and nobody there may change it.
  if (existsSync(inProject('server.js')) || isInstalled()) return;
  await step('Installing packages (about a minute, the first time)', async () => {
    const windows = process.platform === 'win32';
    // Prisma would download an engine that scripts/schema-engine.mjs replaces.
    const env = { ...process.env, PRISMA_SCHEMA_ENGINE_BINARY: inProject('scripts/schema-engine.mjs') };
    // NODE_ENV=production would leave out what builds and tests the project.
    const args = ['ci', '--include=dev', '--include=optional', '--no-audit', '--no-fund'];
    for (let attempt = 1; ; attempt++) {
      const { code, output } = await run(windows ? 'npm.cmd' : 'npm', args, { env, mayFail: true });
      if (code === 0) return;
      if (attempt === TRIES || !/ECONN|ETIMEDOUT|EAI_AGAIN|ENOTFOUND|ERR_SOCKET|network|503|502/i.test(output))
        throw new Plain(`${output.trimEnd().slice(-4000)}\n\nThe packages could not be installed.`);
      await new Promise((resolve) => setTimeout(resolve, attempt * 5000));
    }
  });
}
