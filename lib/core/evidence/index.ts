/** From what lies on file about a unit to beliefs, rules and return visits: joins condenser, fouling and intervals. */
import '../refrigerants/all';

export { baselineFrom, lnKOf, readingFact, setAsideWhy, type ReadingFact } from './reading-fact';
export { CONDENSER_MODEL_VERSION, estimateColumns, estimateReading, pastLosses } from './estimate-record';
export { evidenceOf, type FindingFact, type UnitEvidence, type UnitFile } from './unit-file';
export { exposureOf, failureOf, groupKey, kitchenBeliefs, type FleetBelief, type UnitBelief } from './beliefs';
export { course, fanAhead, fanDays, limitDates, type CoursePoint } from './course';
export { depositToday, extraEnergyToday, lostToday, monthlyLoss, sumOf, timesPrice, type UnitStanding } from './fleet-cost';
export { fitFleet } from './fit-fleet';
export { extraKwh, ownLimits, type LimitSettings, type OwnLimits } from './own-limits';
export { DEFAULT_SHOP_RULES, readShopRules, type ShopRules } from './shop-rules';
export { dueNow, evidenceOfChange, heldWords, reviseTask, settingsFor, type TaskFile, type TaskRevision } from './revise-task';
export { settleFleet, type WhatIfCoil, type WhatIfFleet } from './what-if';
export { RETURN_CAUSES, RETURN_LOOKS_AT, RETURN_WORDS, returnVisits, type ReturnCause, type ReturnVisit } from './return-visits';
