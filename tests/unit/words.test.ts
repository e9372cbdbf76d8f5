import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const list = readFileSync('docs/words.md', 'utf8').split('## Not understood, so not used')[1] ?? '';
const strays = [...list.matchAll(/^- (.+)$/gm)].map((m) => m[1] ?? '');
const sources = ['app', 'lib/core', 'lib/features'].flatMap((room) =>
  readdirSync(room, { recursive: true, encoding: 'utf8' })
    .filter((f) => /\.tsx?$/.test(f))
    .map((f) => `${room}/${f}`),
);
/** Without comments: nobody reads those on a page. */
const said = (path: string) => readFileSync(path, 'utf8').replace(/\/\*[\s\S]*?\*\/|(?<=^|\s)\/\/.*$/gm, '');

it('keeps words that were not understood out of the pages', () => {
  expect(strays.length).toBeGreaterThan(5);
  expect(sources.length).toBeGreaterThan(200);
  const found = sources.flatMap((path) => {
    const text = said(path).toLowerCase();
    return strays.filter((w) => new RegExp(`(?<![\\w])${w.toLowerCase()}(?![\\w])`).test(text)).map((w) => `${path}: ${w}`);
  });
  expect(found).toEqual([]);
});
