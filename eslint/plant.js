// What judges shares no equation with what it judges: the plant's world may take types and refrigerant data, nothing else.

const WORLD = 'Decisions are judged in this world: it grows deposits by laws of its own.';
const REFUSED = 'The plant judges this: it may share types with it, no equation.';

export const plant = [
  {
    files: ['scripts/simulation/world.ts', 'scripts/simulation/worlds.ts'],
    rules: {
      '@typescript-eslint/no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              group: [
                '**/core/condenser/**',
                '**/core/evidence',
                '**/core/evidence/**',
                '**/core/fouling',
                '**/core/fouling/**',
                '**/core/intervals',
                '**/core/intervals/**',
              ],
              message: WORLD,
            },
          ],
        },
      ],
    },
  },
  {
    files: ['tests/plant/world/**', 'tests/plant/make.ts'],
    rules: {
      '@typescript-eslint/no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              group: [
                '**/core/condenser',
                '**/core/condenser/**',
                '**/core/evidence/**',
                '**/core/fouling/**',
                '**/core/numerics/**',
                '**/judge/**',
              ],
              allowTypeImports: true,
              message: REFUSED,
            },
          ],
        },
      ],
    },
  },
];
