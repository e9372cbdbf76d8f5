// A function of more than fifteen ways through it is taken apart into parts that have names of their own. What stays whole is
// a table, or a loop of reckoning, and says so where it stands.
export const complexity = {
  files: ['lib/**/*.{ts,tsx}', 'scripts/**', 'app/**/*.{ts,tsx}'],
  rules: { complexity: ['error', 15] },
};
