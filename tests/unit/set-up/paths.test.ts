import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';

const ROOMS = ['app', 'bench', 'checks', 'docs', 'eslint', 'lib', 'prisma', 'scripts', 'tests'];
const under = (root: string) => readdirSync(root, { recursive: true, encoding: 'utf8' }).map((f) => `${root}/${f.replaceAll('\\', '/')}`);
const tree = [...readdirSync('.', { encoding: 'utf8' }), ...ROOMS, ...ROOMS.flatMap(under)];
const there = new Set(tree.flatMap((f) => [f, f.replace(/(\.test|\.spec|\.comparison)?\.[a-z]+$/, '')]));

/** What a newcomer reads of the code. Records name other repositories' files nowhere; notes beside foreign data do, and are left out. */
const pages = tree.filter((f) => /^(README|DEVELOPERS)\.md$|^docs\/.*\.md$|^lib\/.*README\.md$|^tests\/plant\/README\.md$/.test(f));

const ENDING = /\.(ts|tsx|mjs|js|jsonc?|md|sql|prisma|ya?ml|css|png)$/;
/** Addresses of pages, patterns, packages and what a running shop makes are no files of ours. */
const isPath = (said: string) =>
  /^[\w.()[\]/-]+$/.test(said) &&
  !said.startsWith('/') &&
  !said.startsWith('.data') &&
  said !== 'lib/database/generated' &&
  !existsSync(`node_modules/${said}`) &&
  (ENDING.test(said) || ROOMS.includes(said.split('/')[0] ?? '') || existsSync(said));

const found = (page: string, said: string) => {
  const name = said.replace(/\/$/, '');
  const beside = path.posix.join(path.posix.dirname(page), name);
  // A name by itself, as in "its `page.tsx`", is one that some file has.
  return existsSync(name) || there.has(name) || there.has(beside) || (ENDING.test(name) && tree.some((f) => f.endsWith(`/${name}`)));
};

it('every path that the guides, the records and the pages of the models name is in the tree', () => {
  const said = pages.flatMap((page) =>
    [
      ...readFileSync(page, 'utf8')
        .replace(/```[\s\S]*?```/g, '')
        .matchAll(/`([^`\n]+)`/g),
    ].flatMap(([, words = '']) =>
      words
        .split(' ')
        .filter(isPath)
        .map((name) => ({ page, name })),
    ),
  );
  expect(said.length).toBeGreaterThan(150);
  expect(said.filter(({ page, name }) => !found(page, name)).map(({ page, name }) => `${page}: ${name}`)).toEqual([]);
});
