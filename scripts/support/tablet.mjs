import { mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { build, context } from 'esbuild';
import { early, screens, TABLET_ADDRESS, TABLET_ENTRY } from '../../esbuild.config.mjs';
import { inProject } from './paths.mjs';

/**
 * Bundle the tablet's client into `folder`: `files/`, and a `bundle.json` with the shell, its inline script and the files' names.
 * @param {{ folder: string, development: boolean }} options in development it goes on watching the sources
 * @throws when a source cannot be bundled
 */
export async function bundleTablet({ folder, development }) {
  const files = path.join(folder, 'files');
  await mkdir(files, { recursive: true });
  const latest = {};
  const keep = (name) => ({
    name: 'bundle.json',
    setup: (b) =>
      b.onEnd(async (result) => {
        if (result.errors.length > 0) return;
        latest[name] = result;
        if (latest.screens && latest.early) await describe(folder, latest);
      }),
  });
  const options = [
    [screens({ development, outdir: files }), 'screens'],
    [early({ development }), 'early'],
  ].map(([given, name]) => ({ ...given, plugins: [...(given.plugins ?? []), keep(name)] }));
  if (!development) return void (await Promise.all(options.map((o) => build(o))));
  const contexts = await Promise.all(options.map((o) => context(o)));
  await Promise.all(contexts.map((c) => c.rebuild()));
  await Promise.all(contexts.map((c) => c.watch()));
}

/** The names are of the contents: what was read before stays readable until the new description stands. */
async function describe(folder, { screens, early }) {
  const outputs = Object.entries(screens.metafile.outputs);
  const names = outputs.map(([file]) => path.basename(file));
  const inlineScript = early.outputFiles[0].text.trim();
  const shell = (await readFile(inProject('app/(tablet)/round/shell.html'), 'utf8')).replace('<!-- bundle -->', () =>
    [`<script>${inlineScript}</script>`, ...links(outputs)].join('\n'),
  );
  const unfinished = path.join(folder, 'bundle.new.json');
  await writeFile(unfinished, JSON.stringify({ shell, inlineScript, files: names }));
  await rename(unfinished, path.join(folder, 'bundle.json'));
  const files = path.join(folder, 'files');
  for (const old of await readdir(files)) if (!names.includes(old)) await rm(path.join(files, old), { force: true });
}

/** What the shell's head asks for, all at once, rather than one after another as each is read. */
function links(outputs) {
  const [script, entry] = outputs.find(([, o]) => o.entryPoint === TABLET_ENTRY) ?? [];
  if (!entry) throw new Error(`${TABLET_ENTRY} is not among what was bundled.`);
  const at = (file) => `${TABLET_ADDRESS}/${path.basename(file)}`;
  const imported = entry.imports.filter((i) => i.kind === 'import-statement').map((i) => i.path);
  // Every screen is written in these two; the browser finds out only when it draws.
  const fonts = outputs.map(([file]) => file).filter((f) => /-latin-(400|700)-normal-[^/]*\.woff2$/.test(f));
  return [
    ...(entry.cssBundle ? [`<link rel="stylesheet" href="${at(entry.cssBundle)}">`] : []),
    ...imported.map((f) => `<link rel="modulepreload" href="${at(f)}">`),
    ...fonts.map((f) => `<link rel="preload" as="font" type="font/woff2" crossorigin href="${at(f)}">`),
    `<script type="module" src="${at(script)}"></script>`,
  ];
}
