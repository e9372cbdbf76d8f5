// How the tablet's client is bundled. `next.config.ts` has it done before every build, and again on each change in development.
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import tailwindcss from '@tailwindcss/postcss';
import postcss from 'postcss';

export const TABLET_ADDRESS = '/round-app';
export const TABLET_ENTRY = 'app/(tablet)/round/main.tsx';

const REACT = path.join(import.meta.dirname, 'app/(tablet)/round/_lib/react.ts');

/** Tailwind on the tablet's one stylesheet. It tells which files and folders it looked into. */
const tailwind = {
  name: 'tailwind',
  setup(build) {
    build.onLoad({ filter: /[\\/]tablet\.css$/ }, async ({ path: file }) => {
      const from = await readFile(file, 'utf8');
      const { css, messages } = await postcss([tailwindcss({ optimize: false })]).process(from, { from: file });
      return {
        contents: css,
        loader: 'css',
        watchFiles: [file, ...messages.filter((m) => m.type === 'dependency').map((m) => m.file)],
        watchDirs: messages.filter((m) => m.type === 'dir-dependency').map((m) => m.dir),
      };
    });
  },
};

const common = ({ development }) => ({
  absWorkingDir: import.meta.dirname,
  bundle: true,
  minify: !development,
  // Licences of what is carried along stand in THIRD_PARTY_NOTICES.md.
  legalComments: 'none',
  target: ['es2022', 'chrome109', 'safari16.4', 'firefox115'],
  tsconfig: path.join(import.meta.dirname, 'tsconfig.json'),
  logLevel: 'warning',
});

/**
 * The screens: scripts, style and fonts, each named by its content.
 * @param {{ development: boolean, outdir: string }} options @returns {import('esbuild').BuildOptions}
 */
export const screens = ({ development, outdir }) => ({
  ...common({ development }),
  entryPoints: [TABLET_ENTRY],
  splitting: true,
  format: 'esm',
  jsx: 'automatic',
  jsxDev: development,
  // The screens are written against React's interface; Preact serves it in a quarter of the code, and a cold start on a tablet is mostly code.
  alias: {
    'react/jsx-runtime': 'preact/jsx-runtime',
    'react/jsx-dev-runtime': 'preact/jsx-runtime',
    react: REACT,
    'react-dom/client': REACT,
  },
  define: { 'process.env.NODE_ENV': JSON.stringify(development ? 'development' : 'production') },
  loader: { '.woff2': 'file', '.woff': 'file' },
  outdir,
  entryNames: '[name]-[hash]',
  chunkNames: '[name]-[hash]',
  assetNames: '[name]-[hash]',
  publicPath: TABLET_ADDRESS,
  metafile: true,
  plugins: [tailwind],
});

/**
 * The script that stands in the shell itself.
 * @param {{ development: boolean }} options @returns {import('esbuild').BuildOptions}
 */
export const early = ({ development }) => ({
  ...common({ development }),
  entryPoints: ['app/(tablet)/round/early.ts'],
  format: 'iife',
  write: false,
});
