/** From evidence to the next interval, with its reason. */
export { DEFAULT_POLICY, type Bounds, type LimitSettings, type ShopPolicy, type UnitPolicy } from './policy';
export { readPolicy } from './read-policy';
export { initialCoilWeeks, reviseCoilRule, type CoilRevision, type CoilRevisionInput } from './coil';
export { coilFindings, type CoilEvidence } from './coil-findings';
export { reviseInspectionRule, type InspectionEvidence, type InspectionRevisionInput } from './inspection';
export type { Revision } from './revision';
export { costCurve, targets } from './optimise';
export { settle, whatIf, type WhatIfUnit } from './what-if';
export { ageReplacement, asymptoticPenalty, hiddenFailure, linearPenalty, minimalRepair } from './closed-forms';
