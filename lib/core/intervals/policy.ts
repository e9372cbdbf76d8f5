import type { CoilGrade } from '../findings/grades';
import type { Limit } from '../fouling';
import { fahrenheitToKelvin } from '../measures';
import { LEARNING_TASKS, TASK_KIND_INFO, type LearningTask } from '../tasks';

export type IntervalTask = LearningTask;

/** The shop's own settings; every guard rail is here, to be seen and edited. Costs in the shop's currency. */
export type ShopPolicy = {
  /** Accepted probability that a limit is crossed between two cleanings, 0–1. */
  risk: number;
  /** Accepted probability that a coil is packed when its date comes, 0–1. */
  packedRisk: number;
  /** Used for a unit whose own limits (from the condenser model) are not known. */
  limits: Limit[];
  /** What no unit's own machine may pass on a hot day, in its own quantities. */
  ownLimits: LimitSettings;
  /** One coil cleaning as a part of a visit. */
  cleaningCost: number;
  /** The part of that which is the trip: spared where somebody is due in the kitchen that week anyway. */
  tripCost: number;
  /** The same with the coil washed right through, so that old deposit comes off too. */
  deepCleaningCost: number;
  /** One look at a drain or an evaporator as a part of a visit. */
  inspectionCost: number;
  /** What a coil found packed costs besides: going back, a warm box, a complaint, worn start parts. */
  comebackCost: number;
  /** Extra energy per day for each unit of −ln K, where the condenser model says nothing better of a unit. */
  energyCostPerDayPerLnK: number;
  /** What a breakdown costs: call-out, product, parts. */
  failureCost: number;
  /** ln(K/K_clean) beyond which a hot day breaks the unit down (the trip temperature, from the condenser model). */
  failureLimit: Limit;
  /** Chance that a day is so hot, for a unit beyond that limit. */
  failureChancePerDay: number;
  /** What a day with a blocked drain or an iced coil costs before anybody knows. */
  hiddenFailureCostPerDay: number;
  /** Days that a visit usually comes after its date; the interval is shorter by them. */
  lateDays: number;
  /** Shortest interval at all. */
  minWeeks: number;
  /** Below this only a packed coil, a block of ice, a blocked drain or a trip shortens: from there it takes long to come back. */
  minWeeksUnlessSevere: number;
  maxWeeks: Record<IntervalTask, number>;
  /** Longest first interval for a unit nobody has looked at yet. */
  maxWeeksWithoutHistory: number;
  /** Most by which one step may lengthen an interval. */
  loosenFactor: number;
  /** Clean findings running that loosening asks for. */
  cleanFindings: number;
  /** Worst coil grade that still counts as a clean finding: up to furred, light comes through all of the coil. */
  cleanGrade: CoilGrade;
  /** Days within which a packed coil, a block of ice, a blocked drain or a trip brings somebody back. */
  returnWithinDays: number;
  /** Share of the first limit that may be lost even just after a cleaning before a deep cleaning is advised. */
  deepCleanShare: number;
  /** Differences smaller than this share of the interval are left alone. */
  deadBand: number;
};

/** The same for one unit: energy by its own machine (deposit −ln K → cost per day) where the condenser model gives that. */
export type UnitPolicy = Omit<ShopPolicy, 'energyCostPerDayPerLnK' | 'ownLimits'> & {
  energyCostPerDayPerLnK: number | ((deposit: number) => number);
};

/** What may not be passed on a hot day, set by the shop. */
export type LimitSettings = {
  /** Fraction of cooling lost, 0–1. */
  coolingLost: number;
  /** Gas leaving the compressor, K. */
  dischargeK: number;
};

// Judgement of what is usual, in US dollars; every one is a setting.
// Limit: a packed coil (deposit 0.6), for units whose own limits are not known. A coil found packed: half a day's call and
// a complaint, 150; seeds 1 and 2 of the invented fleets were looked at when it was set. Energy: at
// 42 % less conductance (ln K −0.55) the Oak Ridge unit drew 20 % more power (Kim et al. 2019), 0.37 of the power for
// each unit of ln K: 0.8 a day on 12 kWh at 18 cents. Breakdown: a call-out out of hours 350, spoiled product 500, and
// one in four times 1,400 of start parts or compressor. Own limits: a tenth of the cooling gone on a hot day is where a box
// in service begins to run warm; 225 °F on the discharge line is the trade's usual limit. Both common practice, from memory.
export const DEFAULT_POLICY: ShopPolicy = {
  risk: 0.2,
  packedRisk: 0.04,
  limits: [{ name: 'heat rejection', lnK: -0.6 }],
  ownLimits: { coolingLost: 0.1, dischargeK: fahrenheitToKelvin(225) },
  cleaningCost: 60,
  tripCost: 20,
  deepCleaningCost: 200,
  inspectionCost: 25,
  comebackCost: 150,
  energyCostPerDayPerLnK: 0.8,
  failureCost: 1200,
  failureLimit: { name: 'trip temperature', lnK: -0.75 },
  failureChancePerDay: 0.05,
  hiddenFailureCostPerDay: 15,
  lateDays: 4,
  minWeeks: 1,
  minWeeksUnlessSevere: 1,
  maxWeeks: Object.fromEntries(LEARNING_TASKS.map((key) => [key, TASK_KIND_INFO[key].maxWeeks])) as Record<IntervalTask, number>,
  maxWeeksWithoutHistory: 26,
  loosenFactor: 2,
  cleanFindings: 1,
  cleanGrade: 'furred',
  returnWithinDays: 7,
  deepCleanShare: 0.3,
  deadBand: 0.1,
};

/** What warranty or contract asks of one task, in weeks; the tighter of these and the shop's own bounds holds. */
export type Bounds = { minWeeks?: number; maxWeeks?: number; maxReason?: 'warranty' | 'contract' };
