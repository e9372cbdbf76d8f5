/** Planning the week: which work goes in one trip, who does it and when. Pure: time, chance and the LP solver are arguments. */
export * from './types';
export { pricesFrom, SQUEEZE_PRICES } from './prices';
export * from './input';
export { planWeek, proposeWeek, PlanCancelled, type Improvement } from './propose';
export { joined, openings, without } from './hours';
export { greatCircleKm, travelMinutes } from './travel';
export type { LpSolver } from './bound/lp';
export { checkPlan } from './check-plan';
export { bookByHand, type HandPlan } from './by-hand';
export { learnMinutes } from './learn-minutes';
export { learnAccess, STANDARD_ACCESS } from './learn-access';
export { learnSiteTimes, minutesOnSite, siteTimeOf, siteTimeWords, type SiteTimes } from './on-site';
export { explainVisits, type VisitReason } from './explain';
export { withOnCall } from './on-call';
export { squeezeIn } from './squeeze/squeeze-in';
export type { BookedVisit } from './squeeze/types';
export { kitchenLabel, readTravel, TRAVEL_COLUMNS, type NamedKitchen, type TravelPair } from './travel-csv';
