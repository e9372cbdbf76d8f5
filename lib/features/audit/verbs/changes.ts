import 'server-only';
import { fieldWords } from '../../../core/audit/words';
import { AppError } from '../../../core/errors';
import { lastChange } from '../reads/audit';
import type { Prisma, Tx } from '../../../database/client';
import { refusedBy } from '../../../database/constraints';
import type { ServiceContext } from '../../context';
import { auditBy } from './write-audit';

/** JSON with keys in order: PostgreSQL gives them back in another than they were written in. */
const inOrder = (value: unknown): string =>
  JSON.stringify(value ?? null, (_, v: unknown) =>
    v && typeof v === 'object' && !Array.isArray(v) ? Object.fromEntries(Object.entries(v).sort(([a], [b]) => (a < b ? -1 : 1))) : v,
  );

/** A measure that a form showed with six digits and sent back as it was. Whole numbers may be counts: they are what they are. */
const sameMeasure = (a: unknown, b: unknown): boolean =>
  typeof a === 'number' &&
  typeof b === 'number' &&
  !(Number.isInteger(a) && Number.isInteger(b)) &&
  Math.abs(a - b) <= 5e-6 * Math.max(Math.abs(a), Math.abs(b));

/** Fields that differ, with what they were and are now, as the audit keeps them. */
export function differences<T extends object>(before: T, after: Partial<{ [K in keyof T]: unknown }>): Prisma.InputJsonObject {
  const out: Record<string, Prisma.InputJsonValue> = {};
  for (const key of Object.keys(after) as (keyof T & string)[]) {
    // What is not said is not changed.
    if (after[key] === undefined) continue;
    const [from, to] = [inOrder(before[key]), inOrder(after[key])];
    if (from !== to && !sameMeasure(before[key], after[key])) out[key] = JSON.parse(`[${from},${to}]`) as Prisma.InputJsonValue;
  }
  return out;
}

/** The line that an edit leaves: each field that differs, as it was and as it is. */
export const writeEdit = <T extends object>(
  db: Tx,
  { actor, now }: Pick<ServiceContext, 'actor' | 'now'>,
  of: { action: string; entity: string; id: string },
  before: T,
  after: Partial<{ [K in keyof T]: unknown }>,
) =>
  auditBy(
    db,
    { actor, now },
    {
      action: of.action,
      entity: of.entity,
      entityId: of.id,
      detail: { changed: differences(before, after) },
    },
  );

/** What to tell someone whose form was opened before another person's change: who, what, and what now. */
export async function staleError(db: Tx, entity: string, id: string, noun: string): Promise<AppError> {
  const last = await lastChange(db, entity, id);
  const what = last?.fields.length ? ` (${last.fields.map(fieldWords).join(', ')})` : '';
  return new AppError(
    'conflict',
    `${last?.by ?? 'Someone'} changed ${noun} while this form was open${what}. Nothing was saved; open it again in another tab to compare, then save from there.`,
  );
}

/** Turns a refusal of the database into words beside a field. */
export async function orSay<T>(work: Promise<T>, messages: Record<string, readonly [message: string, field: string]>): Promise<T> {
  try {
    return await work;
  } catch (e) {
    const rule = refusedBy(e);
    const refusal = rule ? messages[rule] : undefined;
    if (refusal) throw new AppError('conflict', refusal[0], refusal[1]);
    throw e;
  }
}
