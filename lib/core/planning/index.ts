/** Planning the week: which work goes in one trip, who does it and when. Pure: time, chance and the LP solver are arguments. */
export * from './types';
export { pricesFrom, SQUEEZE_PRICES, STARTING_PRICES } from './prices';
export * from './input';
export { planWeek, proposeWeek, PlanCancelled, type Improvement, type ProposeOptions } from './propose';
export { joined, openings, without, type InstantAt, type WeeklyHours } from './hours';
export { greatCircleKm, travelMinutes } from './travel';
export type { LpColumn, LpModel, LpRow, LpSolution, LpSolver } from './bound/lp';
export { checkPlan, type Violation } from './check-plan';
export { bookByHand, type HandPlan } from './by-hand';
export { learnMinutes, type FinishedVisit, type LearnedFactor, type LearnedMinutes } from './learn-minutes';
export { learnAccess, STANDARD_ACCESS } from './learn-access';
export { learnSiteTimes, minutesOnSite, siteTimeOf, siteTimeWords, type SiteTime, type SiteTimes } from './on-site';
export { explainVisits, type VisitReason } from './explain';
export { withOnCall } from './on-call';
export { squeezeIn } from './squeeze/squeeze-in';
export type { BookedVisit, Emergency, MovedVisit, SqueezeOption, SqueezePrices } from './squeeze/types';
export { kitchenLabel, readTravel, TRAVEL_COLUMNS, type NamedKitchen, type TravelPair } from './travel-csv';
