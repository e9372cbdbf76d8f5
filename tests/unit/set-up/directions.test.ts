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
    ['lib/core/x.ts', "export * from '../database/client';"],
    ['lib/core/x.ts', "import { z } from 'zod'; export const x = z;"],
    ['lib/core/x.ts', "import path from 'node:path'; export const x = path;"],
    ['lib/core/x.ts', "export const x = () => import('../features/people/verbs/sign-in');"],
    ['lib/schemas/x.ts', "export * from '../database/client';"],
    ['lib/database/x.ts', "export * from '../features/people/reads/people';"],
    ['lib/features/x/reads/x.ts', "export * from '../../people/verbs/sign-in';"],
    ['lib/features/x/reads/x.ts', "export { redirect } from 'next/navigation';"],
    ['lib/features/x/reads/x.ts', "export { PrismaClient } from '@prisma/client';"],
    ['lib/features/x/verbs/x.ts', "export { redirect } from 'next/navigation';"],
    ['lib/features/x/verbs/x.ts', "export * from '../../../server/process/env';"],
    ['lib/server/x.ts', "export * from '../features/people/verbs/sign-in';"],
    ['app/x/actions.ts', "export * from '@/lib/database/client';"],
    ['app/x/actions.ts', "export * from '@/lib/features/people/reads/people';"],
    ['app/x/page.tsx', "export * from '@/lib/features/people/verbs/sign-in';"],
    ['app/x/page.tsx', "export * from '@/lib/database/client';"],
    ['app/x/_components/x.tsx', "export * from '@/lib/database/client';"],
    ['app/x/_components/x.tsx', "export * from '@/lib/server/process/env';"],
    ['app/_ui/x.tsx', "export * from '@/lib/features/people/verbs/sign-in';"],
  ])('%s refuses: %s', async (file, code) => {
    expect(await broken(file, code)).toContain(DIRECTIONS);
  });

  it.each([
    ['lib/core/x.ts', "export * from './errors'; export { RRule } from 'rrule';"],
    ['lib/database/x.ts', "export * from '../core/errors';"],
    ['lib/features/x/reads/x.ts', "export * from '../../../database/client'; export * from '../../people/reads/people';"],
    ['lib/features/x/verbs/x.ts', "export * from '../../people/reads/people'; export * from '../../../core/errors';"],
    ['app/x/page.tsx', "export * from '@/lib/features/people/reads/people'; export * from '@/app/_ui/page/mark';"],
    ['app/x/_components/x.tsx', "export * from '@/lib/core/equipment/build';"],
    ['tests/x.ts', "export * from '@/lib/features/people/verbs/sign-in';"],
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

describe('the door to the database', { timeout: 60_000 }, () => {
  const DOOR = 'no-restricted-syntax';
  it.each([
    ['app/x/page.tsx', 'export const x = (db: Db) => db.visit.findMany();'],
    ['lib/server/x.ts', 'export const x = (ctx: Ctx) => ctx.db.visit.count();'],
    ['lib/jobs/x.ts', 'export const x = (db: Db) => db.$queryRaw`SELECT 1`;'],
    ['lib/features/x/reads/x.ts', 'export const x = (tx: Tx) => tx.visit.update({});'],
    ['lib/features/x/reads/x.ts', 'export const x = (tx: Tx) => tx.$executeRaw`DELETE FROM "Visit"`;'],
  ])('%s refuses: %s', async (file, code) => {
    expect(await broken(file, code)).toContain(DOOR);
  });

  it.each([
    ['lib/features/x/reads/x.ts', 'export const x = (tx: Tx) => tx.visit.findMany();'],
    ['lib/features/x/verbs/x.ts', 'export const x = (tx: Tx) => tx.visit.update({});'],
  ])('%s allows: %s', async (file, code) => {
    expect(await broken(file, code)).not.toContain(DOOR);
  });
});

describe('dates and figures', { timeout: 60_000 }, () => {
  it.each([
    ['lib/core/x.ts', 'export const x = (d: Date) => d.toISOString().slice(0, 10);'],
    ['lib/features/x/verbs/x.ts', "export const x = (d: Date) => d.toISOString().split('T')[0];"],
    ['lib/features/x/reads/x.ts', 'export const x = (d: Date | null) => d?.toISOString().slice(0, 10);'],
    ['app/x/page.tsx', 'export const x = (d: Date) => d.toLocaleDateString();'],
    ['app/_ui/x.ts', "export const x = new Intl.DateTimeFormat('en');"],
    ['app/x/page.tsx', 'export const x = (n: number) => n.toLocaleString();'],
    ['lib/core/x.ts', "export const x = (n: number) => Intl.NumberFormat('en').format(n);"],
    ['lib/features/x/verbs/x.ts', "export { format } from 'date-fns'; import { format as f } from 'date-fns'; export const x = f;"],
  ])('%s refuses: %s', async (file, code) => {
    expect(await broken(file, code)).toContain('no-restricted-syntax');
  });

  it('are written in rooms of their own', async () => {
    expect(await broken('lib/core/measures/figures.ts', "export const x = (n: number) => n.toLocaleString('en');")).toEqual([]);
    expect(await broken('lib/core/calendar/x.ts', 'export const x = (d: Date) => d.toISOString().slice(0, 10);')).toEqual([]);
  });
});
