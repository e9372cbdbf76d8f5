import 'server-only';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { BuildOptions, Plugin } from 'esbuild';

/**
 * The round is a client of its own, not a page of Next: it starts without a server, from what the service worker keeps,
 * and carries only what it uses. It is built here, with the app, from app/(tablet)/round/main.tsx.
 */

const ROOT = process.cwd();
const ENTRY = 'app/(tablet)/round/main.tsx';
const EARLY = 'app/(tablet)/round/early.ts';
export const ROUND_FILES = '/round-app';

export type BuiltFile = { bytes: Uint8Array<ArrayBuffer>; type: string };
export type RoundApp = {
  files: Map<string, BuiltFile>;
  script: string;
  styles: string[];
  preload: string[];
  fonts: string[];
  early: string;
};

const TYPES: Record<string, string> = {
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
};

/** Tailwind over the one stylesheet, looking for class names in the round's own sources only. */
const tailwind: Plugin = {
  name: 'tailwind',
  setup(build) {
    build.onLoad({ filter: /app[\\/]globals\.css$/ }, async ({ path: file }) => {
      const { default: postcss } = await import('postcss');
      const { default: plugin } = await import('@tailwindcss/postcss');
      const source = await readFile(file, 'utf8');
      const fonts = [...source.matchAll(/^@import '@fontsource.*$/gm)].map((m) => m[0]);
      const own = source
        .replace(/^@import '@fontsource.*$/gm, '')
        .replace(/@import 'tailwindcss';/, "@import 'tailwindcss' source(none);\n@source './(tablet)';\n@source './_ui';");
      const { css } = await postcss([plugin({ optimize: false })]).process(own, { from: file });
      return { contents: `${fonts.join('\n')}\n${css}`, loader: 'css', resolveDir: path.dirname(file) };
    });
  },
};

async function build(): Promise<RoundApp> {
  const esbuild = await import('esbuild');
  const production = process.env.NODE_ENV !== 'development';
  const common = {
    absWorkingDir: ROOT,
    bundle: true,
    minify: production,
    target: ['es2022', 'chrome109', 'safari16.4', 'firefox115'],
    tsconfig: path.join(ROOT, 'tsconfig.json'),
    write: false,
    logLevel: 'silent',
  } as const satisfies BuildOptions;
  const early = await esbuild.build({ ...common, entryPoints: [EARLY], format: 'iife' });
  const result = await esbuild.build({
    ...common,
    entryPoints: [ENTRY],
    splitting: true,
    format: 'esm',
    jsx: 'automatic',
    jsxDev: !production,
    // The screens are written against React's interface; Preact serves it in a third of the code, and a cold start on a tablet is mostly code.
    alias: { react: 'preact/compat', 'react-dom': 'preact/compat' },
    define: { 'process.env.NODE_ENV': JSON.stringify(production ? 'production' : 'development') },
    loader: { '.woff2': 'file', '.woff': 'file' },
    outdir: path.join(ROOT, 'round-app'),
    entryNames: '[name]-[hash]',
    chunkNames: '[name]-[hash]',
    assetNames: '[name]-[hash]',
    publicPath: ROUND_FILES,
    metafile: true,
    plugins: [tailwind],
  });
  const files = new Map(
    result.outputFiles.map((f) => [
      path.basename(f.path),
      { bytes: new Uint8Array(f.contents), type: TYPES[path.extname(f.path)] ?? 'application/octet-stream' },
    ]),
  );
  const entry = Object.entries(result.metafile.outputs).find(([, o]) => o.entryPoint === ENTRY);
  if (!entry) throw new Error('The round has no entry point.');
  const preload = entry[1].imports.filter((i) => i.kind === 'import-statement').map((i) => path.basename(i.path));
  // Every screen is written in these two; the browser finds out only when it draws.
  const fonts = [...files.keys()].filter((f) => /-latin-(400|700)-normal-.*\.woff2$/.test(f));
  return {
    files,
    fonts,
    early: early.outputFiles[0]?.text ?? '',
    script: path.basename(entry[0]),
    styles: entry[1].cssBundle ? [path.basename(entry[1].cssBundle)] : [],
    preload,
  };
}

// The shell's route and its files' route are bundled apart, yet must speak of one build.
const held = globalThis as unknown as { rimebookRoundApp?: Promise<RoundApp> };
/** In development each look at the shell builds anew. */
export function roundApp(fresh = false): Promise<RoundApp> {
  if (fresh && process.env.NODE_ENV === 'development') held.rimebookRoundApp = undefined;
  return (held.rimebookRoundApp ??= build());
}

/** The shell: the same for everyone, without data. */
export async function roundShell(): Promise<string> {
  const { script, styles, preload, fonts, early } = await roundApp(true);
  const at = (file: string) => `${ROUND_FILES}/${file}`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover">
<title>Round · Rimebook</title>
<meta name="description" content="The technician’s round, with and without signal.">
<meta name="theme-color" content="#0a6078">
<meta name="apple-mobile-web-app-capable" content="yes">
<link rel="manifest" href="/manifest.webmanifest">
<link rel="icon" href="/icon.svg" type="image/svg+xml">
<link rel="apple-touch-icon" href="/icons/apple-touch-180.png">
<script>${early}</script>
${styles.map((f) => `<link rel="stylesheet" href="${at(f)}">`).join('\n')}
${preload.map((f) => `<link rel="modulepreload" href="${at(f)}">`).join('\n')}
${fonts.map((f) => `<link rel="preload" as="font" type="font/woff2" crossorigin href="${at(f)}">`).join('\n')}
<script type="module" src="${at(script)}"></script>
</head>
<body>
<div id="round"><p style="padding:4rem 1rem;text-align:center">Opening the round …</p></div>
<noscript><p>The round needs JavaScript: it keeps your entries on the tablet.</p></noscript>
</body>
</html>
`;
}
