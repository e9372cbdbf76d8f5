import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

// Authorization is a parameter of the wrapper, so it cannot be left out: every entrance uses one.
const all = readdirSync('app', { recursive: true, encoding: 'utf8' }).map((f) => path.posix.join('app', f));
const files = (name: string) => all.filter((f) => path.posix.basename(f) === name);

const WRAPPER: Record<string, RegExp> = {
  'page.tsx': /export default definePage\(\s*'[^']+'/,
  'actions.ts': /define(FormAction|Call)\(\s*'[^']+'/,
  'route.ts': /defineRoute\(\s*'[^']+'/,
};
// Entrances that cannot be wrapped, each with its reason.
const EXCEPT = new Map([
  ['app/api/auth/[...nextauth]/route.ts', 'the sign-in library answers here itself'],
  ['app/(tablet)/round/route.ts', 'the shell of the round: a static page that holds no data'],
  ['app/round-app/[file]/route.ts', 'its scripts and styles: static, no data'],
  ['app/serwist/[path]/route.ts', 'its service worker: static, no data'],
]);

describe.each(Object.entries(WRAPPER))('%s', (name, wrapper) => {
  it('is guarded by the wrapper everywhere', () => {
    const found = files(name).filter((f) => !EXCEPT.has(f));
    expect(found.length).toBeGreaterThan(0);
    expect(found.filter((f) => !wrapper.test(readFileSync(f, 'utf8')))).toEqual([]);
  });
});

describe('actions', () => {
  it('export nothing but wrapped actions', () => {
    for (const f of files('actions.ts')) {
      const text = readFileSync(f, 'utf8');
      const exported = text.match(/^export (?!type\b).*/gm) ?? [];
      expect(
        exported.filter((line) => !/= define(FormAction|Call)\($|= define(FormAction|Call)\(/.test(line)),
        f,
      ).toEqual([]);
    }
  });
});
