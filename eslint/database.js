import { written } from './written.js';

// The door to the database: models of Prisma are called in lib/features and nowhere else in lib and app, and reads never write.
// docs/decisions/0001-the-door-to-the-database.md says why.

const ask = 'findUnique|findUniqueOrThrow|findFirst|findFirstOrThrow|findMany|count|aggregate|groupBy';
const change = 'create|createMany|createManyAndReturn|update|updateMany|updateManyAndReturn|upsert|delete|deleteMany';

/** `db.visit.findMany(…)`: a method of a model of something named like a connection. */
const call = (methods) =>
  `CallExpression[callee.property.name=/^(${methods})$/][callee.object.type="MemberExpression"][callee.object.object.name=/^(db|tx|prisma)$/]`;
const contextCall = (methods) =>
  `CallExpression[callee.property.name=/^(${methods})$/][callee.object.type="MemberExpression"][callee.object.object.property.name=/^(db|tx|prisma)$/]`;
const raw = (methods) => `MemberExpression[property.name=/^\\$(${methods})$/]`;
const rawTag = (methods) => `TaggedTemplateExpression[tag.property.name=/^\\$(${methods})$/]`;

const refused = (message, selectors) => selectors.map((selector) => ({ selector, message }));

export const database = [
  { files: ['lib/**', 'app/**'], rules: { 'no-restricted-syntax': ['error', ...written] } },
  {
    files: ['app/**', 'lib/server/**', 'lib/jobs/**', 'lib/tablet/**', 'lib/schemas/**', '*.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        ...written,
        ...refused('The database is asked in lib/features: reads for pages, verbs for actions.', [
          call(`${ask}|${change}`),
          contextCall(`${ask}|${change}`),
          raw('queryRaw|executeRaw|queryRawUnsafe|executeRawUnsafe|transaction'),
        ]),
      ],
    },
  },
  {
    files: ['lib/features/*/reads/**'],
    rules: {
      'no-restricted-syntax': [
        'error',
        ...written,
        ...refused('Reads never write: what changes a row is a verb.', [
          call(change),
          contextCall(change),
          rawTag('executeRaw'),
          raw('executeRaw|executeRawUnsafe|transaction'),
        ]),
      ],
    },
  },
];
