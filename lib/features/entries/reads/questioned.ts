import 'server-only';
import { STORED_ENTRY_DETAIL } from '../../../database/stored/records';
import type { QuestionedEntry } from '../../../core/entries/questioned-entry';
import { Prisma, type Tx } from '../../../database/client';
import { shopTimeZone } from '../../shop/reads/shop';
import { aboutEntries } from './about';

const INCLUDE = { device: { select: { name: true } }, settledBy: { select: { name: true } } } as const satisfies Prisma.EntryInclude;
type Row = Prisma.EntryGetPayload<{ include: typeof INCLUDE }>;

const NEWEST_FIRST = [{ receivedAt: 'desc' }, { deviceSeq: 'desc' }, { id: 'desc' }] as const;

/** How many entries nobody in the office has looked at. Written out, so that its partial index serves it. A statement, or a part of one. */
export const TO_LOOK_AT = Prisma.sql`SELECT count(*)::int AS n FROM "Entry" WHERE outcome <> 'applied' AND "settledAt" IS NULL`;

export const countToLookAt = async (db: Tx): Promise<number> => (await db.$queryRaw<{ n: number }[]>(TO_LOOK_AT))[0]?.n ?? 0;

/** Entries nobody in the office has looked at, the last to come in first. */
export async function entriesToLookAt(db: Tx, take: number): Promise<QuestionedEntry[]> {
  const where = { outcome: { not: 'applied' }, settledAt: null } as const;
  return asQuestioned(db, await db.entry.findMany({ where, orderBy: [...NEWEST_FIRST], take, include: INCLUDE }));
}

/** Entries that were looked at, the last looked at first. */
export async function entriesLookedAt(db: Tx, take: number): Promise<QuestionedEntry[]> {
  const where = { settledAt: { not: null } } as const;
  return asQuestioned(db, await db.entry.findMany({ where, orderBy: [{ settledAt: 'desc' }, { id: 'desc' }], take, include: INCLUDE }));
}

/** A visit's entries that were not simply filed, in the order they came in. */
export async function questionedOnVisit(db: Tx, visitId: string): Promise<QuestionedEntry[]> {
  const where = { visitId, outcome: { not: 'applied' } } as const;
  return asQuestioned(db, await db.entry.findMany({ where, orderBy: [{ receivedAt: 'asc' }, { deviceSeq: 'asc' }], include: INCLUDE }));
}

async function asQuestioned(db: Tx, rows: Row[]): Promise<QuestionedEntry[]> {
  if (rows.length === 0) return [];
  const about = await aboutEntries(db, rows);
  const people = await db.user.findMany({ where: { id: { in: rows.map((o) => o.userId) } }, select: { id: true, name: true } });
  const nameOf = new Map(people.map((p) => [p.id, p.name]));
  const shopZone = await shopTimeZone(db);
  return rows.map((o) => {
    const { kitchen, ...rest } = about(o);
    return {
      id: o.id,
      kind: o.kind,
      outcome: o.outcome === 'rejected' ? 'rejected' : 'conflict',
      note: STORED_ENTRY_DETAIL.read(o.detail).note ?? '',
      by: nameOf.get(o.userId) ?? 'someone',
      device: o.device.name || 'tablet',
      madeAt: o.madeAt.getTime(),
      receivedAt: o.receivedAt.getTime(),
      timeZone: kitchen?.timeZone ?? shopZone,
      kitchen: kitchen && { id: kitchen.id, name: kitchen.name, customer: kitchen.customer },
      payload: o.payload,
      settled: o.settledAt && { by: o.settledBy?.name ?? 'someone', at: o.settledAt.getTime(), note: o.settledNote },
      ...rest,
    };
  });
}
