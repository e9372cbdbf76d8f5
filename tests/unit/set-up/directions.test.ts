import { ESLint } from 'eslint';
import { describe, expect, it } from 'vitest';

const eslint = new ESLint();

/** The rules that a file with this text at this path would break. */
async function broken(filePath: string, code: string) {
  const [result] = await eslint.lintText(code, { filePath });
  return result?.messages.map((message) => message.ruleId) ?? [];
}

const DIRECTIONS = 'boundaries/dependencies';

describe('which room may import which', { timeout: 60_000 }, () => {
  it.each([
    ['lib/core/x.ts', "export * from '../data/client';"],
    ['lib/core/x.ts', "import { z } from 'zod'; export const x = z;"],
    ['lib/core/x.ts', "import path from 'node:path'; export const x = path;"],
    ['lib/core/x.ts', "export const x = () => import('../services/people/sign-in');"],
    ['lib/schemas/x.ts', "export * from '../data/client';"],
    ['lib/data/x.ts', "export * from '../services/people/sign-in';"],
    ['lib/data/x.ts', "export { redirect } from 'next/navigation';"],
    ['lib/services/x.ts', "export { redirect } from 'next/navigation';"],
    ['lib/services/x.ts', "export * from '../server/env';"],
    ['lib/server/x.ts', "export * from '../services/people/sign-in';"],
    ['app/x/actions.ts', "export * from '@/lib/data/client';"],
    ['app/x/page.tsx', "export * from '@/lib/services/people/sign-in';"],
    ['app/x/_components/x.tsx', "export * from '@/lib/data/client';"],
    ['app/x/_components/x.tsx', "export * from '@/lib/server/env';"],
    ['app/_ui/x.tsx', "export * from '@/lib/services/people/sign-in';"],
  ])('%s refuses: %s', async (file, code) => {
    expect(await broken(file, code)).toContain(DIRECTIONS);
  });

  it.each([
    ['lib/core/x.ts', "export * from './equipment'; export { RRule } from 'rrule';"],
    ['lib/data/x.ts', "export * from '../core/equipment';"],
    ['lib/services/x.ts', "export * from '../data/client'; export * from '../core/errors';"],
    ['app/x/page.tsx', "export * from '@/lib/data/client'; export * from '../_ui/mark';"],
    ['app/x/_components/x.tsx', "export * from '@/lib/core/equipment';"],
    ['tests/x.ts', "export * from '@/lib/services/people/sign-in';"],
  ])('%s allows: %s', async (file, code) => {
    expect(await broken(file, code)).not.toContain(DIRECTIONS);
  });
});

describe('lib/core knows neither time, chance nor machine', { timeout: 60_000 }, () => {
  it.each([
    ['Date.now()', 'no-restricted-properties'],
    ['new Date()', 'no-restricted-syntax'],
    ['Math.random()', 'no-restricted-properties'],
    ['process.env.HOME', 'no-restricted-globals'],
    ['fetch("/x")', 'no-restricted-globals'],
  ])('%s', async (expression, rule) => {
    expect(await broken('lib/core/x.ts', `export const x = () => ${expression};`)).toContain(rule);
  });

  it('takes a date from its arguments', async () => {
    expect(await broken('lib/core/x.ts', 'export const x = (at: number) => new Date(at);')).toEqual([]);
  });
});
