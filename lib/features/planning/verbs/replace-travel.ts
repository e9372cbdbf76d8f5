import 'server-only';
import { writeAudit } from '../../audit/verbs/write-audit';
import { AppError } from '../../../core/errors';
import type { TravelPair } from '../../../core/planning';
import type { Db, Tx } from '../../../database/client';
import { lockAll } from '../../../database/lock';
import type { ServiceContext } from '../../context';
import { checkTravel } from './check-travel';

type Ctx = ServiceContext & { db: Db };

/**
 * Replaces all imported driving minutes with those of a file: all of it or nothing. The file is read again, for kitchens
 * may have changed since it was looked at. @throws AppError invalid
 */
export async function replaceTravel({ db, actor, now }: Ctx, csv: string): Promise<{ stored: number; replaced: number }> {
  return db.$transaction(
    async (tx) => {
      await lockAll(tx, 'travel');
      const { report, pairs } = await checkTravel({ db: tx }, csv);
      const errors = report.problems.filter((p) => p.severity === 'error').length;
      if (errors > 0)
        throw new AppError(
          'invalid',
          `${errors === 1 ? 'One line is' : `${errors} things are`} wrong with it; check it again. Nothing was changed.`,
          'csv',
        );
      const replaced = await replaceTravelTimes(tx, pairs);
      await writeAudit(tx, {
        at: now,
        userId: actor?.userId,
        action: 'travel.replaced',
        entity: 'TravelTime',
        detail: { pairs: pairs.length, replaced },
      });
      return { stored: pairs.length, replaced };
    },
    { timeout: 30_000 },
  );
}

/** Takes all imported minutes away: coordinates answer for every pair again. */
export async function forgetTravel({ db, actor, now }: Ctx): Promise<{ stored: number; replaced: number }> {
  return db.$transaction(async (tx) => {
    await lockAll(tx, 'travel');
    const replaced = await replaceTravelTimes(tx, []);
    await writeAudit(tx, { at: now, userId: actor?.userId, action: 'travel.forgotten', entity: 'TravelTime', detail: { replaced } });
    return { stored: 0, replaced };
  });
}

/** Puts these pairs in the place of all that were imported before; returns how many those were. */
async function replaceTravelTimes(tx: Tx, pairs: readonly TravelPair[]): Promise<number> {
  const { count } = await tx.travelTime.deleteMany({});
  await tx.travelTime.createMany({ data: [...pairs] });
  return count;
}
