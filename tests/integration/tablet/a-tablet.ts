import type { Aspect, Grade } from '@/lib/core/findings/grades';
import { randomUUID } from 'node:crypto';
import type { Actor, Role } from '@/lib/core/people/access';
import { ENTRY_VERSION, type EntryKind, type EntryResult, type Payloads, type RoundReply } from '@/lib/core/tablet';
import type { Db } from '@/lib/database/client';
import { applyEntries } from '@/lib/features/tablet/verbs/apply-entries';
import { readRound } from '@/lib/features/tablet/verbs/round';
import type { EntryEnvelope } from '@/lib/schemas/tablet/entries';
import { haveOneUnit, visitRow, visitTaskRow } from '../../support/factories';

export const MORNING = new Date('2026-11-25T15:00:00Z');

/** A technician's tablet that talks to the services directly. */
export class Tablet {
  readonly id = randomUUID();
  seq = 0;
  clock: Date;
  basedOn: Date;

  constructor(
    readonly db: Db,
    readonly person: { id: string; name: string; role?: Role },
    start: Date = MORNING,
  ) {
    this.clock = start;
    this.basedOn = start;
  }

  get actor() {
    return { userId: this.person.id, name: this.person.name, role: this.person.role ?? ('technician' as const), sessionId: randomUUID() };
  }

  make<K extends EntryKind>(visitId: string, kind: K, payload: Payloads[K], over: Partial<EntryEnvelope> = {}): EntryEnvelope {
    this.clock = new Date(this.clock.getTime() + 60_000);
    return {
      id: randomUUID(),
      seq: ++this.seq,
      kind,
      version: ENTRY_VERSION,
      visitId,
      madeAt: this.clock.toISOString(),
      basedOn: this.basedOn.toISOString(),
      payload,
      ...over,
    };
  }

  send(entries: EntryEnvelope[], now = new Date(this.clock.getTime() + 60_000), actor: Actor = this.actor) {
    return applyEntries(
      { db: this.db, actor, now },
      { device: { id: this.id, holder: this.person.id, name: 'Tablet', appVersion: 'test' }, sentAt: now.toISOString(), entries },
    );
  }

  async refresh(cursor = '', now = this.clock): Promise<RoundReply> {
    const device = { id: this.id, holder: this.person.id, name: 'Tablet', appVersion: 'test' };
    return JSON.parse(await readRound({ db: this.db, actor: this.actor, now }, device, cursor));
  }
}

/** What the office alone is asked about an entry: the tablet was told that it is filed, and nothing else. */
export async function officeTold(db: Db, answer: EntryResult | undefined): Promise<string> {
  if (answer?.outcome !== 'applied' || answer.note !== '') throw new Error(`the tablet was told: ${answer?.outcome} ${answer?.note}`);
  const filed = await db.entry.findUniqueOrThrow({ where: { id: answer.id } });
  return filed.outcome === 'conflict' ? (filed.detail as { note: string }).note : '';
}

/** A visit of this morning on one unit with its three tasks. */
export async function haveVisit(db: Db) {
  const shop = await haveOneUnit(db);
  const visit = await db.visit.create({ data: visitRow(shop.kitchen.id, shop.person.id, MORNING, 60) });
  await db.visitTask.createMany({ data: shop.tasks.map((t) => visitTaskRow(visit.id, t)) });
  const coil = shop.tasks.find((t) => t.kindKey === 'coil_cleaning');
  if (!coil) throw new Error('no coil cleaning');
  return { ...shop, visit, coil };
}

export const finding = (
  unitId: string,
  aspect: Aspect,
  grade: Grade | null,
  over: Partial<Payloads['finding.set']> = {},
): Payloads['finding.set'] => ({
  unitId,
  aspect,
  phase: 'found',
  grade,
  notLookedWhy: grade === null ? 'Panel is riveted shut' : '',
  note: '',
  replaces: null,
  ...over,
});
