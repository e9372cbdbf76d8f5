import { readdirSync } from 'node:fs';

const rooms = (folder) =>
  readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name);

// Tests of a room that stand with another's, beside those in the folder of its own name.
const ELSEWHERE = {
  'customer-words': ['reports/visit-for-customer', 'reports/quarter', 'reports/signing', 'tablet/said-of-a-visit'],
  evidence: ['condenser/*'],
  findings: ['jobs/lists', 'tablet/unit-work', 'set-up/closed-sets'],
  people: ['set-up/closed-sets'],
  sealed: ['jobs/jobs', 'set-up/closed-sets'],
  typed: ['equipment/unit-fields', 'set-up/closed-sets'],
};
const VERBS_ELSEWHERE = {
  audit: ['people/*'],
  customers: ['equipment/on-file'],
  feeds: ['mail/*', 'customer-pages/page'],
  links: ['mail/*', 'people/sign-in-links', 'customer-pages/page'],
  quarters: ['customer-pages/quarter'],
  sealed: ['refrigerant-book/*', 'tablet/*'],
  shop: ['reports/customer-report', 'owner/weekly'],
};

/** Tests that take seconds each: a mistake runs them again and again, so scores are without what they alone would notice. */
export const TOO_SLOW = [
  ...['choices/compare', 'condenser/estimate-script', 'condenser/random', 'fouling/fleet', 'intervals/properties'],
  ...['intervals/simulation', 'planning/brute-force', 'planning/properties', 'sealed/vacuum-decay'],
].map((t) => `tests/unit/${t}.test.ts`);

// What has no test of its own kind: what it says is met by journeys only, or it is a list of codes.
const NOT_MEASURED = ['core/errors', 'core/ids', 'core/due', 'features/health'];

// Who may do what: a mistake here lets somebody in.
const ACCESS = ['people'];

// Figures of the sources and what a script makes of them: data, not code.
const DATA = { refrigerants: ['!lib/core/refrigerants/data/**/*.ts'] };

const core = (room) => ({
  code: [`lib/core/${room}/**/*.ts`, ...(DATA[room] ?? [])],
  tests: [`${room}/**/*`, ...(ELSEWHERE[room] ?? [])].map((t) => `tests/unit/${t}.test.ts`),
  goal: 85,
});
const feature = (room) => ({
  code: [`lib/features/${room}/**/*.ts`],
  tests: [`${room}/**/*`, ...(VERBS_ELSEWHERE[room] ?? [])].map((t) => `tests/integration/${t}.test.ts`),
  project: 'integration',
  goal: ACCESS.includes(room) ? 85 : 75,
});
const measured = (folder) => rooms(`lib/${folder}`).filter((room) => !NOT_MEASURED.includes(`${folder}/${room}`));

/** Each room's code and the tests that are to notice mistakes in it. `goal`: percent of them. */
export const ROOMS = {
  ...Object.fromEntries(measured('core').map((room) => [room, core(room)])),
  ...Object.fromEntries(measured('features').map((room) => [`${room}-verbs`, feature(room)])),
  'tablet-store': { code: ['lib/tablet/**/*.ts'], tests: ['tests/unit/tablet/**/*.test.ts'], goal: 75 },
  server: {
    code: ['lib/server/{doors/{caller,guard,throttle,define-action,define-route},people/{known-device,session},process/requests}.ts'],
    tests: ['tests/unit/server/**/*.test.ts', 'tests/integration/people/gate.test.ts'],
    project: 'integration',
    goal: 85,
  },
  database: {
    code: ['lib/database/*.ts', 'lib/database/stored/**/*.ts'],
    tests: ['tests/unit/set-up/**/*.test.ts', 'tests/integration/set-up/**/*.test.ts', 'tests/integration/kitchens/**/*.test.ts'],
    project: 'integration',
    goal: 75,
  },
};
