import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

const rooms = (folder) =>
  readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name);

// Tests of a room that stand with another's, beside those in the folder of its own name.
const ELSEWHERE = {
  // Dates as sheets hold them are tested with the sheet.
  calendar: ['cells', 'columns', 'typed-values', 'whole-words', 'written-words'].map((t) => `sheet/${t}`),
  'customer-words': ['reports/visit-for-customer', 'reports/quarter', 'reports/signing', 'tablet/said-of-a-visit'],
  evidence: ['condenser/*'],
  findings: ['jobs/lists', 'tablet/unit-work', 'set-up/closed-sets'],
  people: ['set-up/closed-sets'],
  sealed: ['jobs/jobs', 'set-up/closed-sets'],
  typed: ['equipment/unit-fields', 'set-up/closed-sets'],
};
const VERBS_ELSEWHERE = {
  audit: ['people/*'],
  sealed: ['refrigerant-book/*', 'tablet/*'],
  visits: ['tablet/*'],
};

/** Tests that take seconds each: a mistake runs them again and again, so scores are without what they alone would notice. */
export const TOO_SLOW = [
  ...['choices/compare', 'condenser/estimate-script', 'condenser/random', 'fouling/fleet', 'intervals/properties'],
  ...['intervals/simulation', 'planning/brute-force', 'planning/properties', 'sealed/vacuum-decay'],
  '../integration/fleet-csv/whole-fleet',
  '../integration/fuzz/nonsense',
  '../integration/tablet/faults',
  '../unit/tablet/size',
].map((t) => path.join('tests/unit', `${t}.test.ts`));

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
  // Answers are kept between calls here and there: one under a mistake must not reach the next.
  remembers: true,
});

// Whole shops and backups: they read half of all rooms, slowly, and say little of any.
const OF_ALL = ['archive', 'backup', 'fuzz', 'seed'];
const files = (kind) =>
  rooms(`tests/${kind}`)
    .filter((folder) => !OF_ALL.includes(folder))
    .flatMap((folder) =>
      readdirSync(`tests/${kind}/${folder}`)
        .filter((name) => name.endsWith('.test.ts'))
        .map((name) => `tests/${kind}/${folder}/${name}`),
    );
const all = [...files('integration'), ...files('unit')];
const calling = (room) => all.filter((file) => readFileSync(file, 'utf8').includes(`'@/lib/features/${room}/`));
/** The tests of its own folder, those that call it, and some that meet it through others. */
const feature = (room) => ({
  code: [`lib/features/${room}/**/*.ts`],
  tests: [...new Set([...[`${room}/*`, ...(VERBS_ELSEWHERE[room] ?? [])].map((t) => `tests/integration/${t}.test.ts`), ...calling(room)])],
  project: 'integration',
  goal: ACCESS.includes(room) ? 85 : 75,
});
const measured = (folder) => rooms(`lib/${folder}`).filter((room) => !NOT_MEASURED.includes(`${folder}/${room}`));

/** Each room's code and the tests that are to notice mistakes in it. `goal`: percent of them. */
export const ROOMS = {
  ...Object.fromEntries(measured('core').map((room) => [room, core(room)])),
  ...Object.fromEntries(measured('features').map((room) => [`${room}-verbs`, feature(room)])),
  'tablet-store': { code: ['lib/tablet/**/*.ts'], tests: ['tests/unit/tablet/**/*.test.ts'], goal: 75 },
  schemas: {
    code: ['lib/schemas/**/*.ts'],
    tests: ['tests/unit/schemas/**/*.test.ts', 'tests/unit/tablet/entry-fault.test.ts'],
    goal: 75,
    // Little in it runs when a test does: whoever fails at a bound never comes to the function that tells which tests meet its file.
    declares: true,
  },
  server: {
    code: ['lib/server/{doors/{caller,guard,throttle,define-action,define-route},people/{known-device,session},process/requests}.ts'],
    tests: ['tests/unit/server/**/*.test.ts', 'tests/integration/people/gate.test.ts'],
    project: 'integration',
    goal: 85,
  },
  database: {
    code: ['lib/database/*.ts', 'lib/database/stored/**/*.ts'],
    tests: [
      ...[
        'unit/set-up/stored-json',
        'unit/set-up/stored-shapes',
        'unit/server/trouble',
        'integration/database/*',
        'integration/kitchens/*',
      ],
      ...['integration/set-up/one-connection', 'integration/set-up/replica'],
    ].map((t) => `tests/${t}.test.ts`),
    project: 'integration',
    goal: 75,
  },
};

const some = (globs) =>
  new RegExp(
    globs
      .map((glob) =>
        glob.replaceAll(
          /\*\*\/|[*.]|\{|,|\}/g,
          (part) => ({ '**/': '(.*/)?', '*': '[^/]*', '.': String.raw`\.`, '{': '(', ',': '|', '}': ')' })[part],
        ),
      )
      .map((one) => `^${one}$`)
      .join('|'),
  );
const patterns = new Map(
  Object.entries(ROOMS).map(([room, { code, tests }]) => [
    room,
    { code: some(code.filter((glob) => !glob.startsWith('!'))), tests: some(tests) },
  ]),
);

/** The room that a file of code belongs to. @param {string} file from the project's folder */
export const roomOf = (file) => [...patterns.keys()].find((room) => patterns.get(room).code.test(file));

/** Files of tests that are a room's. @param {string} room */
export const testsOf = (room) => patterns.get(room).tests;
