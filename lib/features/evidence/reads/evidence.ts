import 'server-only';
import { COIL_CLEANING } from '../../../core/tasks';
import { daysBetween, todayIn } from '../../../core/calendar';
import {
  course,
  extraEnergyToday,
  fanAhead,
  fanDays,
  kitchenBeliefs,
  limitDates,
  depositOf,
  lostToday,
  ownLimits,
  reviseTask,
  setAsideWhy,
  timesPrice,
} from '../../../core/evidence';
import { isStopped } from '../../../core/findings/grades';
import type { UnitFile } from '../../../core/evidence';
import type { TaskFile, TaskRevision } from '../../../core/evidence/revise-task';
import type { UnitEvidenceShown } from '../../../core/evidence/shown';
import { cyclePicture, headPicture } from '../../../core/evidence/pictures';
import type { Tx } from '../../../database/client';
import type { TaskOnUnit } from '../../equipment/reads/units';
import { filesOf, type UnitOnFile } from './findings-history';
import { fleetBelief, kitchenMessages, type ShopFacts } from './fouling';
import { unitReadings, visitHistory } from './unit-visits';

/** Of the history of visits, unless all are asked for. */
const LATEST_VISITS = 10;
const MOST_VISITS = 200;

/**
 * What is believed of a unit's coil, and what that rests on; null when the unit is not in service. Unit and settings are
 * handed in: who asks has read them.
 */
export async function coilBelief(db: Tx, unit: UnitOnFile, shop: ShopFacts) {
  if (unit.archivedAt) return null;
  const [[file], { fleet, neighbours }] = await Promise.all([filesOf(db, [unit], shop), fleetAndNeighbours(db, unit.kitchenId)]);
  const [belief] = file ? kitchenBeliefs([file], fleet, neighbours) : [];
  if (!file || !belief) return null;
  return { file, fleet, belief, own: ownLimits(file.unit, belief.evidence.baseline, file.conditions, shop.policy.ownLimits) };
}

async function fleetAndNeighbours(db: Tx, kitchenId: string) {
  const fleet = await fleetBelief(db);
  return { fleet, neighbours: await kitchenMessages(db, kitchenId, fleet.fouling.modelVersion) };
}

type With = {
  shop: ShopFacts;
  /** The unit's tasks, which who asks has read too. */
  tasks: Promise<{ tasks: TaskOnUnit[] }>;
  /** How much of its history. */
  visits?: 'latest' | 'all';
};

/** Everything that the evidence section of a unit shows; null when the unit is not in service. */
export async function unitEvidence(
  db: Tx,
  unit: UnitOnFile,
  now: Date,
  { shop, tasks: asked, visits = 'latest' }: With,
): Promise<UnitEvidenceShown | null> {
  const { timeZone } = unit.kitchen;
  const [found, { tasks }, { latest, heads }, history] = await Promise.all([
    coilBelief(db, unit, shop),
    asked,
    unitReadings(db, unit.id, timeZone),
    visitHistory(db, unit.id, timeZone, visits === 'all' ? MOST_VISITS : LATEST_VISITS),
  ]);
  if (!found) return null;
  const { file, fleet, belief, own } = found;
  const today = todayIn(timeZone, now.getTime());
  const coil = tasks.find((t) => t.active && t.kindKey === COIL_CLEANING) ?? null;
  const limits = own && own.limits.length > 0 ? own.limits : shop.policy.limits;
  const { baseline } = belief.evidence;
  const { rate, lnK, asOf } = belief.fouling;
  const standing = { ratePerDay: rate.mean, rateSdPerDay: rate.sd, lnK: lnK.mean, lnKSd: lnK.sd, days: daysBetween(asOf, today), own };
  const todayKwh = extraEnergyToday([standing]);
  const revised = coilAnew(coil, (file) => reviseTask(file, belief, own, shop.policy, fleet.fouling, null));
  const fan = fanAhead(belief.fouling, today, fanDays(today, coil?.dueOn ?? null));
  return {
    today,
    unit: file.unit,
    conditions: file.conditions,
    baseline,
    fouling: {
      rate: belief.fouling.rate,
      lnK: belief.fouling.lnK,
      restore: belief.fouling.restore,
      evidence: belief.fouling.evidence,
      lastCleanedOn: belief.fouling.lastCleanedOn,
      asOf: belief.fouling.asOf,
      modelVersion: belief.fouling.modelVersion,
    },
    ownLimits: own,
    todayLost: lostToday(standing),
    todayKwh,
    todayMoney: timesPrice(todayKwh, file.conditions.priceKnown ? file.conditions.energyPricePerKwh : null),
    course: course(belief, fleet),
    fan,
    limitDates: limitDates(belief.fouling, limits, today),
    readings: file.readings.flatMap((r) => {
      const seen = depositOf(r, baseline);
      return seen ? [{ on: r.on, phase: r.phase, ...seen, setAside: setAsideWhy(r) }] : [];
    }),
    cleanings: file.cleanings,
    grades: file.findings.filter((f) => f.aspect === 'coil'),
    coil: coil && { rule: coil.rule, dueOn: coil.dueOn },
    stays: staysWhy(file, coil, revised.stays ?? null),
    washThrough: revised.deepClean ?? null,
    latest,
    head: fan[0] ? headPicture(file, baseline, fan[0], heads) : null,
    cycle: latest ? cyclePicture(file.unit, latest.reading) : null,
    visits: history.shown,
    moreVisits: history.more,
  };
}

/** What all that is on file of a coil would say of its task today; nothing where it was never done. */
const coilAnew = (coil: TaskOnUnit | null, revise: (file: TaskFile) => TaskRevision | null): Partial<TaskRevision> =>
  (coil?.lastDoneOn && revise({ ...coil, taskId: coil.id, lastDoneOn: coil.lastDoneOn, newsSince: null })) || {};

/** Why the newest look, at a coil stopped up, moved no date; null where it was another, or has a change of its own. */
function staysWhy(file: UnitFile, coil: TaskOnUnit | null, stays: string | null) {
  const [last] = file.findings.filter((f) => f.aspect === 'coil' && f.phase === 'found').sort((a, b) => (a.on < b.on ? 1 : -1));
  const change = coil?.changes[0];
  if (!last || !isStopped('coil', last.grade)) return null;
  if (change && change.at >= Date.parse(`${last.on}T00:00:00Z`)) return null;
  return stays;
}
