/** From what lies on file about a unit to beliefs, rules and return visits: joins condenser, fouling and intervals. */
import '../refrigerants/all';

export { baselineFrom, lnKOf, readingFact, setAsideWhy, type ReadingFact } from './reading-fact';
export { CONDENSER_MODEL_VERSION, pastLosses } from './estimate-record';
export { evidenceOf, type FindingFact, type UnitEvidence, type UnitFile } from './unit-file';
export { exposureOf, failureOf, failuresOf, groupKey, kitchenBeliefs, type FleetBelief, type UnitBelief } from './beliefs';
export { coilNow, COIL_VERDICTS, type CoilNow, type CoilVerdict } from './coil-now';
export { course, fanAhead, fanDays, limitDates, type CoursePoint } from './course';
export { depositToday, extraEnergyToday, lostToday, monthlyLoss, sumOf, timesPrice, type UnitStanding } from './fleet-cost';
export { fitFleet } from './fit-fleet';
export { extraKwh, ownLimits, type LimitSettings, type OwnLimits } from './own-limits';
export { DEFAULT_SHOP_RULES, readShopRules, type ShopRules } from './shop-rules';
export { decide, ENDED, type ChangeRecord, type Decision, type DecisionPolicy, type TaskOnFile, type VisitNews } from './decide';
export { estimateOnFile, estimateVisit, type EstimatedReading, type ReadingToEstimate } from './estimate-visit';
export { visitConsequences, type KitchenAfterVisit, type VisitOutcome } from './visit-consequences';
export { heldWords } from './revise-task';
export { settleFleet, type WhatIfCoil, type WhatIfFleet } from './what-if';
export {
  RETURN_CAUSES,
  RETURN_LOOKS_AT,
  RETURN_WORDS,
  returnCause,
  returnsAfter,
  returnVisits,
  type FoundAgain,
  type ReturnCause,
  type ReturnOnFile,
  type ReturnVisit,
} from './return-visits';
