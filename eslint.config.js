import nextConfig from 'eslint-config-next/core-web-vitals';
import nextTypeScript from 'eslint-config-next/typescript';
import { assertions } from './eslint/assertions.js';
import { complexity } from './eslint/complexity.js';
import { core } from './eslint/core.js';
import { database } from './eslint/database.js';
import { directions } from './eslint/directions.js';
import { strictness } from './eslint/strictness.js';
import { plant } from './eslint/plant.js';
import { withoutReact } from './eslint/react.js';

const config = [
  {
    ignores: ['.next*/**', '.data/**', 'lib/database/generated/**', 'public/**', 'coverage/**', 'next-env.d.ts', 'tmp/**'],
  },
  ...nextConfig,
  ...nextTypeScript,
  withoutReact,
  {
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_', caughtErrors: 'none' }],
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports', disallowTypeAnnotations: false }],
    },
  },
  {
    // What the shop sees goes through the log, not the console. Three names said something else in each of a hundred files: a
    // name says what it holds.
    files: ['app/**', 'lib/**'],
    rules: { 'no-console': 'error', 'id-denylist': ['error', 'told', 'known', 'words'] },
  },
  {
    // A focused test hides all the others.
    files: ['tests/**'],
    rules: {
      'no-restricted-properties': [
        'error',
        ...['it', 'test', 'describe'].map((object) => ({
          object,
          property: 'only',
          message: 'Remove .only: it hides the other tests.',
        })),
      ],
    },
  },
  complexity,
  strictness,
  assertions,
  ...directions,
  ...database,
  ...core,
  ...plant,
];

export default config;
