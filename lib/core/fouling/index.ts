/** How fast a unit gets into trouble: rates learned from every finding and reading, and when limits will be crossed. */
export { DEFAULT_HYPER, type Hyper } from './hyper';
export { daysSinceClean, type Exposure, type Phase, type UnitEvent, type UnitHistory } from './history';
export { believedByDay, quantilesOf } from './by-day';
export { meanDeposit } from './pieces';
export type { SaidChange } from './said-change';
export { asIfToday, beforeKitchen, posterior, updatePosterior } from './posterior';
export type { FoulingOutlook, FoulingPosterior } from './summary';
export { eachPosterior, fleetPosteriors, kitchenWord, type FleetUnit } from './fleet';
export {
  afterCleaning,
  afterNextCleaning,
  ahead,
  crossedWithin,
  daysToRisk,
  forecast,
  stepAhead,
  washedThrough,
  type Ahead,
  type DateForecast,
  type Limit,
} from './forecast';
export {
  defaultFailurePrior,
  failurePosterior,
  fitFailurePrior,
  priorFailure,
  updateFailure,
  type FailureGroup,
  type FailurePosterior,
  type FailurePrior,
  type Inspection,
} from './failures';
export { decayDays, gammaPassage, wienerPassage, wienerPassageMoments } from './first-passage';
export { gradeChances, lnKAhead } from './grade-chances';
export { jamesStein, partialPool } from './shrinkage';
export { usualDays } from './usual';
export { fitHyper } from './fit';
export { learnHumidity, type WatchedPart } from './learn-humidity';
export { seasonFactor } from './season';
