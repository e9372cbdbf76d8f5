/** From evidence to the next interval, with its reason. */
export { DEFAULT_POLICY, type Bounds, type IntervalTask, type ShopPolicy } from './policy';
export { initialCoilWeeks, reviseCoilRule, type CoilRevision, type CoilRevisionInput } from './coil';
export { coilFindings, type CoilEvidence, type CoilFinding } from './coil-findings';
export { reviseInspectionRule, type InspectionEvidence, type InspectionRevisionInput } from './inspection';
export type { Revision } from './revision';
export type { Guard, Timing } from './guards';
export { costCurve, targets, type CostPoint, type Targets } from './optimise';
export { settle, whatIf, type WhatIfResult, type WhatIfUnit } from './what-if';
export { ageReplacement, asymptoticPenalty, hiddenFailure, linearPenalty, minimalRepair, type Optimum } from './closed-forms';
