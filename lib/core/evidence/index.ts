/** From what lies on file about a unit to beliefs, rules and return visits: joins condenser, fouling and intervals. */
import '../refrigerants/all';

export { baselineFrom, depositOf, lnKOf, setAsideWhy, type ReadingFact } from './reading-fact';
export { pastLosses } from './estimate-record';
export { evidenceOf, type FindingFact, type UnitFile } from './unit-file';

export { coilBeliefs, failuresOf, kitchenBeliefs, type CoilBelief, type FleetBelief, type UnitBelief } from './beliefs';
export { course, fanAhead, fanDays, limitDates, type CoursePoint } from './course';
export { cleaningWorth, type CleaningWorth, type DueCoil } from './cleaning-worth';
export { cleaningSentence, cleaningSources } from './cleaning-words';
export { extraEnergyToday, lostToday, monthlyLoss, sumOf, timesPrice, type UnitStanding } from './fleet-cost';
export { fitCoils, fitFailures, fitFleet } from './fit-fleet';
export { extraKwh, ownLimits, type OwnLimits } from './own-limits';
export { decide, ENDED, madeByVisit, type Decision, type TaskOnFile } from './decide';
export { estimateOnFile, estimateVisit, type EstimatedReading, type ReadingToEstimate } from './estimate-visit';
export { visitConsequences, type VisitOutcome } from './visit-consequences';
export { heldWords, reviseTask } from './revise-task';
export { seasonsOf, type Season } from './seasons';
export { settleFleet, type WhatIfCoil, type WhatIfFleet } from './what-if';
export { returnCause, returnVisits, type FoundAgain, type ReturnOnFile, type ReturnVisit } from './return-visits';
