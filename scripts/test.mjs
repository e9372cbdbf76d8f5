// `npm test`: everything that can be checked, from a fresh clone. `npm test -- unit e2e` runs only those steps.
// The last line says how many tests passed and failed.
import './support/node-version.mjs';
import { atEnd, close, closeOnSignals, isClosing } from './support/closing.mjs';
import { ensureInstalled } from './support/install.mjs';
import { complain, elapsed, Plain, step } from './support/say.mjs';

async function main() {
  closeOnSignals({ code: 130 });
  await ensureInstalled();

  // Only now are the packages there that these need.
  const { ensureClient } = await import('./support/app.mjs');
  const { openTestServer } = await import('./support/test-databases.mjs');
  const { runSteps, STEPS } = await import('./support/test-steps.mjs');
  const asked = process.argv.slice(2);
  const unknown = asked.filter((name) => !(name in STEPS));
  if (unknown.length > 0) throw new Plain(`There is no step ${unknown.join(', ')}. Steps: ${Object.keys(STEPS).join(', ')}`);

  await step('Database client', async (note) => note((await ensureClient()) ? 'made' : 'up to date'));
  const server = await step('Database server', () => openTestServer());
  atEnd(() => server.close());
  return runSteps(asked.length > 0 ? asked : Object.keys(STEPS), server);
}

main()
  .catch((error) => {
    if (!isClosing()) complain(error);
    return { passed: 0, failed: 1 };
  })
  .then(async ({ passed, failed }) => {
    if (isClosing()) return;
    console.log(`\nin ${elapsed()}\n\n${passed} passed, ${failed} failed`);
    await close(failed > 0 ? 1 : 0);
  });
