import type { PrismaClient } from '../../lib/database/generated/client';
import { decideUnit } from '../../lib/features/choices/verbs/decide-unit';

const DAY = 86_400_000;

const DECISIONS = [
  {
    kitchen: 'Dock Street', unit: 'Reach-in by fryer 1', daysAgo: 12, way: 'repair',
    coilPrice: 640, unitPrice: 5200, leftYears: 6,
    reason: 'Washing brings the coil back less each time, and the box itself is sound.',
  },
  {
    kitchen: 'Union Street', unit: 'Milkshake undercounter', daysAgo: 370, way: 'go_on',
    coilPrice: 520, unitPrice: 2900, leftYears: 4,
    reason: 'It cools well once it is clean. Looked at again when the lease of the kitchen is renewed.',
  },
] as const; // prettier-ignore

/** What the owner decided of two units, on what was on file of them that day: one lately, one due to be looked at again. */
export async function saveDecisions(db: PrismaClient, now: Date): Promise<void> {
  const owner = await db.user.findFirstOrThrow({ where: { role: 'owner' }, select: { id: true } });
  for (const { kitchen, unit, daysAgo, ...typed } of DECISIONS) {
    const { id: unitId } = await db.unit.findFirstOrThrow({ where: { name: unit, kitchen: { name: kitchen } }, select: { id: true } });
    await decideUnit(
      {
        db,
        now: new Date(now.getTime() - daysAgo * DAY),
        actor: { userId: owner.id },
      },
      { unitId, ...typed, coilYears: 10, unitYears: 12, useKwh: null, newKwh: null, callOut: 185, refrigerantPerKg: 44, interest: 0.07 },
    );
  }
}
