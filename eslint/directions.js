import boundaries from 'eslint-plugin-boundaries';

// Which room may import which: core ← reads ← verbs ← app. What is not allowed here is an error.
// DEVELOPERS.md tells the same as a table.

/** Rooms by path. The first that fits is the one. */
const rooms = [
  ['core', 'lib/core/**'],
  ['schemas', 'lib/schemas/**'],
  ['tablet', 'lib/tablet/**'],
  ['database', 'lib/database/**'],
  ['reads', 'lib/features/*/reads/**'],
  ['verbs', 'lib/features/**'],
  ['server', 'lib/server/**'],
  ['jobs', 'lib/jobs/**'],
  ['action', 'app/**/actions.ts'],
  ['action', 'app/**/*.actions.ts'],
  ['route', 'app/**/route.{ts,tsx}'],
  ['page', 'app/**/{page,layout,template,default,loading,error,global-error,not-found,forbidden,unauthorized,manifest,icon}.{ts,tsx}'],
  ['component', 'app/**'],
  ['boot', '{instrumentation,instrumentation-client,proxy}.ts'],
  ['outside', '{tests,scripts,bench,checks,prisma,eslint}/**'],
  ['outside', '*'],
];

/** What each room may import of the project itself. */
const inside = {
  core: ['core'],
  schemas: ['schemas', 'core'],
  tablet: ['tablet', 'core'],
  database: ['database', 'core'],
  reads: ['reads', 'database', 'core'],
  verbs: ['verbs', 'reads', 'schemas', 'database', 'core'],
  server: ['server', 'schemas', 'reads', 'database', 'core'],
  jobs: ['jobs', 'server', 'verbs', 'reads', 'database', 'core'],
  action: ['server', 'schemas', 'verbs', 'core'],
  route: ['server', 'schemas', 'verbs', 'core', 'component'],
  page: ['server', 'schemas', 'reads', 'core', 'component', 'action', 'page'],
  component: ['core', 'schemas', 'tablet', 'component', 'action'],
  boot: ['jobs', 'server', 'verbs', 'reads', 'core', 'boot'],
  outside: rooms.map(([name]) => name),
};

const next = ['next', 'next/**', 'next-auth', 'next-auth/**'];
const react = ['react', 'react/**', 'react-dom', 'react-dom/**'];
const prisma = ['@prisma/**', 'pg'];

/** Packages that compute and nothing else: no clock, no machine, no framework. core may use these and no others. */
const pure = ['rrule', 'date-fns', 'date-fns/**', '@date-fns/tz'];

/** Packages that a room must not import. */
const closed = {
  schemas: [...next, ...react, ...prisma, 'server-only'],
  tablet: [...next, ...react, ...prisma, 'server-only'],
  database: [...next, ...react],
  reads: [...next, ...react, ...prisma],
  verbs: [...next, ...react, ...prisma],
  action: prisma,
  route: prisma,
  page: prisma,
  component: [...prisma, 'server-only', 'next/headers'],
};

const REFUSED = '{{from.file.categories}} must not import {{dependency.source}}: see "Rooms and directions" in DEVELOPERS.md.';

/** Rooms that run in the browser too. */
const IN_THE_BROWSER = ['core', 'schemas', 'tablet', 'component'];

const from = (room) => ({ file: { categories: room } });

/** A room's own part of the table: a rule that held the whole of it against each import took half of lint's time. */
const policiesOf = (room) => [
  { from: from(room), allow: { to: { file: { categories: { anyOf: inside[room] } } } } },
  room === 'core'
    ? { from: from(room), allow: { to: { module: { origin: 'external', source: pure } } } }
    : { from: from(room), allow: { to: { module: { origin: ['external', 'core'] } } } },
  ...(room in closed
    ? [
        {
          from: from(room),
          disallow: { to: { module: { origin: 'external', source: closed[room] } } },
          message: `${room} must not import this package.`,
        },
      ]
    : []),
  ...(IN_THE_BROWSER.includes(room)
    ? [
        {
          from: from(room),
          disallow: { to: { module: { origin: 'core' } } },
          message: 'This room runs in the browser too: it has no Node modules.',
        },
      ]
    : []),
];

const settings = {
  'boundaries/elements': [{ type: 'all', pattern: '**', partialMatch: false }],
  'boundaries/files': rooms.map(([category, pattern]) => ({ category, pattern })),
  'boundaries/files-single-match': true,
  'boundaries/dependency-nodes': ['import', 'export', 'dynamic-import', 'require'],
  'boundaries/ignore': ['lib/database/generated/**'],
  'boundaries/legacy-templates': false,
  'import/resolver': { typescript: { project: 'tsconfig.json' } },
};

export const directions = rooms
  // What stands outside may import everything.
  .filter(([room]) => room !== 'outside')
  .map(([room, pattern], i) => ({
    files: [[pattern, '**/*.{ts,tsx}']],
    ignores: rooms.slice(0, i).map(([, earlier]) => earlier),
    plugins: { boundaries },
    settings,
    rules: {
      'boundaries/dependencies': [
        'error',
        { default: 'disallow', message: REFUSED, checkAllOrigins: true, checkInternals: true, policies: policiesOf(room) },
      ],
    },
  }));
