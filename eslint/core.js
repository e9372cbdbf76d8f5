import { written } from './written.js';

// lib/core computes and nothing else: the same arguments give the same answer, in the browser and on the server.

const ASK = 'Take it as an argument: lib/core knows neither time nor chance.';
const NO_MACHINE = 'lib/core runs in the browser too: it knows no machine and no environment.';

const instants = [
  { selector: 'NewExpression[callee.name="Date"][arguments.length=0]', message: ASK },
  { selector: 'CallExpression[callee.name="Date"]', message: ASK },
];

export const core = [
  {
    files: ['lib/core/**'],
    rules: {
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: ASK },
        { object: 'Math', property: 'random', message: ASK },
        { object: 'performance', property: 'now', message: ASK },
        { object: 'crypto', property: 'randomUUID', message: ASK },
        { object: 'crypto', property: 'getRandomValues', message: ASK },
      ],
      'no-restricted-syntax': ['error', ...instants, ...written],
      'no-restricted-globals': [
        'error',
        ...['process', 'require', 'Buffer', '__dirname', 'window', 'document', 'localStorage', 'navigator', 'fetch'].map((name) => ({
          name,
          message: NO_MACHINE,
        })),
      ],
    },
  },
  {
    // The rooms in which dates and figures are written.
    files: ['lib/core/calendar/**', 'lib/core/measures/figures.ts'],
    rules: {
      'no-restricted-syntax': ['error', ...instants],
    },
  },
];
