import 'server-only';
import { AppError } from '../../../core/errors';
import { STORED_CANDIDATES } from '../../../database/stored/places';
import { withinTransaction } from '../../../database/transaction';
import type { Db } from '../../../database/client';
import type { Ask, Candidate } from '../../../core/position';
import { auditBy } from '../../audit/verbs/write-audit';
import type { ServiceContext } from '../../context';
import { takeTurn, type Pace } from './ask-addresses';

const PATIENCE_MS = 8000;

/** The places that one address may mean, now, while somebody waits. @throws AppError invalid | busy */
export async function findPlaces(db: Db, ask: Ask, pace: Pace, address: string): Promise<readonly Candidate[]> {
  if (!(await takeTurn(db, pace, PATIENCE_MS)))
    throw new AppError('busy', 'The service is busy with the list of addresses. Try again in a moment.');
  const answer = await ask(address);
  if (answer.is === 'found') return answer.candidates;
  if (answer.is === 'nothing') return [];
  throw new AppError('busy', `The place-finding service did not help: ${answer.said} Paste a position, or set a pin.`);
}

/** Puts every kitchen that has an address and no position on the list; what was asked before under another address, too. */
export async function queueLookups({ db, now }: ServiceContext): Promise<number> {
  return withinTransaction(db, async (tx) => {
    const lost = await tx.kitchen.findMany({
      where: { archivedAt: null, lat: null, address: { not: '' }, customer: { archivedAt: null } },
      select: { id: true, address: true, lookup: { select: { address: true, status: true } } },
    });
    const again = (k: (typeof lost)[number]) =>
      !k.lookup || k.lookup.address !== k.address || ['failed', 'accepted', 'refused'].includes(k.lookup.status);
    const rows = lost.filter(again);
    await tx.placeLookup.deleteMany({ where: { kitchenId: { in: rows.map((k) => k.id) } } });
    await tx.placeLookup.createMany({ data: rows.map((k) => ({ kitchenId: k.id, address: k.address, createdAt: now })) });
    return rows.length;
  });
}

/** Takes off the list what has not been asked yet. */
export async function stopLookups({ db }: ServiceContext): Promise<void> {
  await db.placeLookup.deleteMany({ where: { status: 'waiting' } });
}

/** Not that place: the kitchen waits for a position by hand. */
export async function refusePlace({ db }: ServiceContext, { kitchenId }: { kitchenId: string }): Promise<void> {
  await db.placeLookup.updateMany({ where: { kitchenId, status: 'found' }, data: { status: 'refused' } });
}

type Taken = { kitchenId: string; index: number };

/**
 * Takes what came back for these kitchens. One that has got a position meanwhile keeps it, and one whose address has
 * changed since it was asked is left out. @returns how many were placed
 */
export function acceptPlaces({ db, actor, now }: ServiceContext, taken: readonly Taken[]): Promise<number> {
  return withinTransaction(db, async (tx) => {
    let placed = 0;
    for (const { kitchenId, index } of taken) {
      const row = await tx.placeLookup.findFirst({
        where: { kitchenId, status: 'found' },
        include: { kitchen: { select: { address: true } } },
      });
      const chosen = row && row.kitchen.address === row.address ? STORED_CANDIDATES.read(row.candidates)[index] : undefined;
      if (!chosen) continue;
      const at = { lat: chosen.lat, lng: chosen.lng };
      const { count } = await tx.kitchen.updateMany({
        where: { id: kitchenId, archivedAt: null, lat: null },
        data: { ...at, positionFrom: 'address', version: { increment: 1 } },
      });
      await tx.placeLookup.update({ where: { kitchenId }, data: { status: 'accepted', candidates: STORED_CANDIDATES.write([]) } });
      if (count === 0) continue;
      placed++;
      await auditBy(
        tx,
        { actor, now },
        {
          action: 'kitchen.position_found',
          entity: 'Kitchen',
          entityId: kitchenId,
          detail: { ...at, address: row?.address ?? '', place: chosen.label },
        },
      );
    }
    return placed;
  });
}
