const core = (room) => ({ code: [`lib/core/${room}/**/*.ts`], tests: [`tests/unit/${room}/**/*.test.ts`], goal: 85 });
const verbs = (room, goal = 75) => ({
  code: [`lib/features/${room}/**/*.ts`],
  tests: [`tests/integration/${room}/**/*.test.ts`],
  project: 'integration',
  goal,
});

/** Each room's code and the tests that are to notice mistakes in it. `goal`: percent of them. */
export const ROOMS = {
  ...Object.fromEntries(
    ['calendar', 'condenser', 'entries', 'equipment', 'evidence', 'findings', 'fleet-csv', 'fouling', 'hours', 'intervals'].map((r) => [
      r,
      core(r),
    ]),
  ),
  ...Object.fromEntries(
    ['measures', 'numerics', 'people', 'planning', 'refrigerants', 'sealed', 'tasks', 'visits', 'wording'].map((r) => [r, core(r)]),
  ),
  'tablet-fold': core('tablet'),
  'tablet-store': { code: ['lib/tablet/**/*.ts'], tests: ['tests/unit/tablet/**/*.test.ts'], goal: 75 },
  server: { code: ['lib/server/{caller,known-device,guard,throttle,define-*}.ts'], tests: ['tests/unit/server/**/*.test.ts'], goal: 85 },
  'people-verbs': { ...verbs('people', 85) },
  'mail-verbs': verbs('mail'),
  'files-verbs': verbs('files'),
  'entries-verbs': verbs('entries'),
  'visits-verbs': verbs('visits'),
  'jobs-verbs': verbs('jobs'),
  'tasks-verbs': verbs('tasks'),
  'equipment-verbs': verbs('equipment'),
  'fleet-csv-verbs': verbs('fleet-csv'),
  'tablet-verbs': verbs('tablet'),
  'intervals-verbs': verbs('intervals'),
  'planning-verbs': verbs('planning'),
  'evidence-verbs': verbs('evidence'),
  'due-verbs': verbs('due'),
  'owner-verbs': verbs('owner'),
};
