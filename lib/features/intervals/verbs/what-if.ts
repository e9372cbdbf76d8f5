import 'server-only';
import { cleanPrior } from '../../../core/condenser';
import { ownLimits, settleFleet, type WhatIfCoil, type WhatIfFleet } from '../../../core/evidence';
import { type ShopPolicy } from '../../../core/intervals';
import { settingsFor } from '../../../core/evidence/revise-task';
import { addDays, todayIn, type LocalDate } from '../../../core/calendar';
import { replay, type Replay, type ReplayCoil } from '../../../core/owner/replay';
import { COIL_CLEANING } from '../../../core/tasks';
import { cleaningsSince } from '../../owner/reads/cleanings';
import { coilsOnFile, type CoilOnFile } from '../../owner/reads/what-if';
import { fleetBelief, policyOnFile } from '../../evidence/reads/fouling';
import { shopTimeZone } from '../../shop/reads/shop';
import type { ServiceContext } from '../../context';

export type Moved = { unitId: string; unit: string; kitchen: string; customer: string; from: number; to: number };
export type WhatIfAnswer = {
  now: Omit<WhatIfFleet, 'weeks'>;
  asked: Omit<WhatIfFleet, 'weeks'>;
  /** Coils whose interval would settle elsewhere, largest relative move first. */
  moved: Moved[];
  movedCount: number;
  /** Above 1 where a sample of kitchens stands for the fleet. */
  scale: number;
  /** The shop's last year gone through again at the asked prices; null where no coil was cleaned twice in it. */
  past: PastAgain | null;
};

/** As it was kept (`plan`) beside what was asked, and beside the shop's usual weeks for everything. */
type PastAgain = { asked: Replay; calendar: Replay['calendar']; calendarWeeks: number };

const SHOWN = 12;
const PAST_DAYS = 365;

/** Where the fleet's coil cleanings settle under the present policy and under another, before anything is saved. */
export async function whatIf({ db, now: moment }: Pick<ServiceContext, 'db' | 'now'>, asked: ShopPolicy): Promise<WhatIfAnswer> {
  const { coils, scale } = await coilsOnFile(db);
  const present = await policyOnFile(db);
  const sameLimits = JSON.stringify(present.ownLimits) === JSON.stringify(asked.ownLimits);
  const now = settleFleet(
    coils.map((c) => asAsked(c, present, true)),
    present,
  );
  const askedCoils = coils.map((c) => asAsked(c, asked, sameLimits));
  const then = settleFleet(askedCoils, asked);
  const moved = coils
    .map((c, i) => ({
      unitId: c.unitId,
      unit: c.unit,
      kitchen: c.kitchen,
      customer: c.customer,
      from: now.weeks[i]?.weeks ?? NaN,
      to: then.weeks[i]?.weeks ?? NaN,
    }))
    .filter((m) => m.from !== m.to)
    .sort((a, b) => Math.abs(Math.log(b.to / b.from)) - Math.abs(Math.log(a.to / a.from)));
  return {
    now: scaled(now, scale),
    asked: scaled(then, scale),
    moved: moved.slice(0, SHOWN),
    movedCount: Math.round(moved.length * scale),
    scale,
    past: await pastAgain(db, moment, askedCoils, then, asked),
  };
}

/** The last year's cleanings once more: the days between them, in the intervals at which the asked settings settle. */
async function pastAgain(
  db: ServiceContext['db'],
  now: Date,
  coils: readonly WhatIfCoil[],
  settled: WhatIfFleet,
  asked: ShopPolicy,
): Promise<PastAgain | null> {
  const from: LocalDate = addDays(todayIn(await shopTimeZone(db), now.getTime()), -PAST_DAYS);
  const [cleaned, kind, fleet] = [
    await cleaningsSince(db, from),
    await db.taskKind.findUnique({ where: { key: COIL_CLEANING }, select: { defaultWeeks: true, minutes: true } }),
    await fleetBelief(db),
  ];
  const calendarWeeks = kind?.defaultWeeks ?? 12;
  const gone = coils.map((c, i): ReplayCoil => ({
    posterior: c.posterior,
    cleanings: cleaned.get(c.unitId) ?? [],
    costs: settingsFor(asked, c.own, c.pricePerKwh),
    failureLimit: c.own?.failureLimit ?? asked.failureLimit,
    packed: fleet.fouling.grades.thresholds[3],
    calendarWeeks: settled.weeks[i]?.weeks ?? calendarWeeks,
    minutes: kind?.minutes ?? 0,
  }));
  const again = replay(gone);
  const usual = replay(gone.map((c) => ({ ...c, calendarWeeks })));
  return again && usual && { asked: again, calendar: usual.calendar, calendarWeeks };
}

function asAsked(c: CoilOnFile, rules: ShopPolicy, kept: boolean): WhatIfCoil {
  // The limits on file are those of the present policy; another policy's have to be worked out.
  const own = kept && c.own ? c.own : ownLimits(c.core, c.baseline ?? cleanPrior(c.core), c.conditions, rules.ownLimits);
  const bounds = {
    minWeeks: Math.max(c.minWeeks, rules.minWeeks),
    ...(c.maxWeeks < rules.maxWeeks.coil_cleaning ? { maxWeeks: c.maxWeeks } : {}),
  };
  return {
    unitId: c.unitId,
    kitchenId: c.kitchenId,
    posterior: c.posterior,
    own,
    pricePerKwh: c.conditions.priceKnown ? c.conditions.energyPricePerKwh : null,
    bounds,
    heldWeeks: c.held ? c.weeks : null,
  };
}

function scaled({ weeks: _, ...f }: WhatIfFleet, by: number): Omit<WhatIfFleet, 'weeks'> {
  const { value, lo, hi, level } = f.costPerMonth;
  return {
    ...f,
    units: Math.round(f.units * by),
    visitsPerMonth: f.visitsPerMonth * by,
    cleaningsPerMonth: f.cleaningsPerMonth * by,
    costPerMonth: { value: value * by, lo: lo * by, hi: hi * by, level },
    cleaning: f.cleaning * by,
    energy: f.energy * by,
    failures: f.failures * by,
  };
}
