import nextConfig from 'eslint-config-next/core-web-vitals';

/** Rules about React and its pages look at where React is written: its own are a compiler run over every file. */
const ABOUT_REACT = /^(react|react-hooks|jsx-a11y|@next\/next)\//;

const named = nextConfig.flatMap(({ rules = {} }) => Object.keys(rules)).filter((rule) => ABOUT_REACT.test(rule));

export const withoutReact = {
  files: ['{lib,tests,scripts,bench,checks,prisma,eslint}/**/*.{ts,js,mjs}'],
  rules: Object.fromEntries(named.map((rule) => [rule, 'off'])),
};
