// First of the setup files in a run of scripts/mutate.mjs: tells the planted code which mistake is on, and hears which code a
// test meets. What the hooks of a file meet before its first test and after its last counts as met by each of its tests.
import { afterAll, afterEach, beforeAll, beforeEach, inject } from 'vitest';

const planted = (globalThis[inject('plantedIn')] ??= {});
const mistake = inject('mistake');

planted.hitLimit = mistake?.hitLimit;
planted.hitCount = mistake ? 0 : undefined;
// At once where the code is met as it is loaded, else when the tests begin.
planted.activeMutant = mistake?.atLoading ? mistake.id : undefined;
// Emptied, not exchanged: code that an earlier file has loaded goes on writing into the object it found then.
planted.mutantCoverage = Object.assign(planted.mutantCoverage ?? {}, { static: {}, perTest: {} });
planted.currentTestId = undefined;

const nameOf = ({ name, suite }) => (suite ? `${nameOf(suite)} ${name}` : name).trim();
const hooks = () => (planted.currentTestId = mistake ? undefined : 'hooks');

beforeAll(() => {
  planted.activeMutant = mistake?.id;
  hooks();
});
beforeEach(({ task }) => {
  if (!mistake) planted.currentTestId = nameOf(task);
});
afterEach(hooks);
afterAll(({}, file) => {
  file.meta.met = { ...planted.mutantCoverage };
  file.meta.hitCount = planted.hitCount;
});
