import 'server-only';
import { createHash } from 'node:crypto';
import {
  baselineFrom,
  coilBeliefs,
  fitCoils,
  fitFailures,
  ownLimits,
  type CoilBelief,
  type FleetBelief,
  type OwnLimits,
} from '../../../core/evidence';
import { type ShopPolicy } from '../../../core/intervals';
import { condenserUnitOf, conditionsOf } from '../../../core/condenser/from-record';
import type { LocalDate } from '../../../core/calendar';
import { groupBy } from '../../../core/numerics/group-by';
import type { Db } from '../../../database/client';
import { STORED_FLEET_BELIEF } from '../../../database/stored/fouling';
import { withinTransaction } from '../../../database/transaction';
import { unitFiles } from '../../evidence/reads/findings-history';
import { policyOnFile } from '../../evidence/reads/fouling';
import { saveBeliefs } from '../../evidence/verbs/save-belief';

/** One step of a refit, small enough to be sent to a thread: half of what the fleet teaches, or some kitchens brought up to it. */
export type RefitStep =
  | { what: 'fit'; of: keyof FleetBelief; kitchenIds: string[]; label: LocalDate }
  | { what: 'bring_up'; kitchenIds: string[]; priorId: string };
/** Units gone through, and what was learned of them. */
export type RefitStepDone = { units: number; learned?: Partial<FleetBelief> };

export async function refitStep(db: Db, step: RefitStep): Promise<RefitStepDone> {
  const ofCoils = step.what === 'bring_up' || step.of === 'fouling';
  const files = await unitFiles(db, { kitchenIds: step.kitchenIds }, { coilOnly: ofCoils });
  if (step.what === 'fit') {
    const learned = step.of === 'fouling' ? { fouling: fitCoils(files, step.label) } : { failures: fitFailures(files) };
    return { units: files.length, learned };
  }
  const prior = await db.fleetPrior.findUniqueOrThrow({ where: { id: step.priorId } });
  const fleet: FleetBelief = STORED_FLEET_BELIEF.read(prior.hyper);
  const rules = await policyOnFile(db);
  const beliefs = [...groupBy(files, (f) => f.kitchenId).values()].flatMap((kitchen) => coilBeliefs(kitchen, fleet));
  const onFile = await db.unitFouling.findMany({
    where: { unitId: { in: files.map((f) => f.unitId) }, ownKey: { not: null } },
    select: { unitId: true, ownKey: true },
  });
  const keys = new Map(onFile.map((r) => [r.unitId, r.ownKey]));
  const rows = beliefs.map((belief) => withLimits(belief, rules, keys.get(belief.file.unitId) ?? null));
  await withinTransaction(db, (tx) => saveBeliefs(tx, rows, new Date()));
  return { units: files.length };
}

/** A unit's own limits cost more than its belief. Where nothing that they rest on has changed they are left as they are on file. */
function withLimits(belief: CoilBelief, rules: ShopPolicy, keyOnFile: string | null) {
  const { unit, conditions } = belief.file;
  const { baseline } = belief.evidence;
  const ownKey = hashOf([unit, conditions, baseline, rules.ownLimits, equations(rules)]);
  return ownKey === keyOnFile ? { belief } : { belief, ownKey, own: ownLimits(unit, baseline, conditions, rules.ownLimits) };
}

const hashOf = (value: unknown) => createHash('sha256').update(JSON.stringify(value)).digest('base64url').slice(0, 22);

const REFERENCE = condenserUnitOf({ kind: 'reach_in', refrigerant: 'R134a', placement: 'line', cutoutPaGauge: 1_900_000 }, {});
const limitsByKey = new Map<string, OwnLimits | null>();
/** What today's equations say of a unit that never changes: other equations say something else, and every limit is worked out anew. */
function equations({ ownLimits: settings }: ShopPolicy): OwnLimits | null {
  const key = JSON.stringify(settings);
  const hit = limitsByKey.get(key);
  if (hit !== undefined) return hit;
  const made = ownLimits(REFERENCE, baselineFrom(REFERENCE, []), conditionsOf(REFERENCE, {}, 'USD'), settings);
  limitsByKey.set(key, made);
  return made;
}
