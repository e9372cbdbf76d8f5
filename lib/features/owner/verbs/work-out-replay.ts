import 'server-only';
import { addDays, todayIn } from '../../../core/calendar';
import { settingsFor } from '../../../core/evidence/revise-task';
import { replay, type ReplayCoil } from '../../../core/owner/replay';
import { COIL_CLEANING } from '../../../core/tasks';
import type { Db } from '../../../database/client';
import { STORED_REPLAY } from '../../../database/stored/figures';
import { fleetBelief, policyOnFile } from '../../evidence/reads/fouling';
import { shopTimeZone } from '../../shop/reads/shop';
import { cleaningsSince } from '../reads/cleanings';
import { coilsOnFile } from '../reads/what-if';

const DAYS = 365;
/** Under which it is kept. */
const REPLAY = 'replay';

/** The last year gone through again beside the calendar of the shop's own kind of task, and kept with the moment it is of. */
export async function workOutReplay({ db, now }: { db: Db; now: Date }): Promise<void> {
  const to = todayIn(await shopTimeZone(db), now.getTime());
  const from = addDays(to, -DAYS);
  const { coils } = await coilsOnFile(db);
  const [kind, fleet, rules, cleaned] = [
    await db.taskKind.findUnique({ where: { key: COIL_CLEANING } }),
    await fleetBelief(db),
    await policyOnFile(db),
    await cleaningsSince(db, from),
  ];
  const shop = await db.shopSettings.findUnique({ where: { id: 1 }, select: { currency: true } });
  const calendarWeeks = kind?.defaultWeeks ?? 12;
  const packed = fleet.fouling.grades.thresholds.at(-1) ?? Infinity;
  const gone = coils.map((c): ReplayCoil => ({
    posterior: c.posterior,
    cleanings: cleaned.get(c.unitId) ?? [],
    costs: settingsFor(rules, c.own, c.conditions.priceKnown ? c.conditions.energyPricePerKwh : null),
    failureLimit: c.own?.failureLimit ?? rules.failureLimit,
    packed,
    calendarWeeks,
    minutes: kind?.minutes ?? 0,
  }));
  const value = STORED_REPLAY.write({
    replay: replay(gone),
    sampled: coils.length,
    currency: shop?.currency ?? 'USD',
    from,
    to,
    calendarWeeks,
  });
  await db.ownerFigure.upsert({ where: { key: REPLAY }, create: { key: REPLAY, at: now, value }, update: { at: now, value } });
}
