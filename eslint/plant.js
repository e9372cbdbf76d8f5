// What judges shares no equation with what it judges: the plant's world may take types and refrigerant data, nothing else.

const REFUSED = 'The plant judges this: it may share types with it, no equation.';

export const plant = [
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
