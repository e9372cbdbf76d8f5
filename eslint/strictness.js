// "!" says that something is there which the compiler cannot see. In the rooms that reckon it stands behind an index into
// an array of numbers whose length the lines above set (noUncheckedIndexedAccess asks for it at each one); anywhere else a
// guard, a destructured first element or `mustGet` says the same and is checked while it runs.
export const RECKONING = ['condenser', 'fouling', 'intervals', 'numerics', 'planning', 'refrigerants'].map((room) => `lib/core/${room}/**`);

export const strictness = {
  files: ['lib/**/*.{ts,tsx}', 'app/**/*.{ts,tsx}'],
  ignores: RECKONING,
  rules: { '@typescript-eslint/no-non-null-assertion': 'error' },
};
