// A function of more than fifteen ways through it is taken apart into parts that have names of their own. What stays whole is
// a table, or a loop of reckoning, and says so where it stands.
export const complexity = {
  files: ['lib/**/*.{ts,tsx}', 'scripts/**', 'app/**/*.{ts,tsx}'],
  // Still to be taken apart; nothing is added here.
  ignores: [
    'app/(tablet)/round/_components/sealed/weighing.tsx',
    'app/(tablet)/round/_components/unit/grade-row.tsx',
    'app/(tablet)/round/_components/unit/readings.tsx',
    'app/(tablet)/round/_components/visit/food-form.tsx',
    'app/(tablet)/round/_components/visit/parts.tsx',
    'app/_ui/forms/use-kept-words.ts',
  ],
  rules: { complexity: ['error', 15] },
};
