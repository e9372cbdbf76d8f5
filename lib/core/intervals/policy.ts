import type { CoilGrade } from '../findings/grades';
import type { Limit } from '../fouling';

export type IntervalTask = 'coil_cleaning' | 'drain_inspection' | 'evaporator_inspection';

/** The shop's own settings; every guard rail is here, to be seen and edited. Costs in the shop's currency. */
export type ShopPolicy = {
  /** Accepted probability that a limit is crossed between two cleanings, 0–1. */
  risk: number;
  /** Used for a unit whose own limits (from the condenser model) are not known. */
  limits: Limit[];
  /** One coil cleaning as a part of a visit. */
  cleaningCost: number;
  /** One look at a drain or an evaporator as a part of a visit. */
  inspectionCost: number;
  /** Extra energy per day for each unit of −ln K; a function (deposit → cost per day) where the condenser model gives one. */
  energyCostPerDayPerLnK: number | ((deposit: number) => number);
  /** What it costs when the first limit of the list flagged by `failureLimit` is crossed: call-out, product, parts. */
  failureCost: number;
  /** Deposit (−ln K) at which that failure is expected. */
  failureLimit: Limit;
  /** What a day with a blocked drain or an iced coil costs before anybody knows. */
  hiddenFailureCostPerDay: number;
  /** Shortest interval at all. */
  minWeeks: number;
  /** Below this only a packed coil, a block of ice, a blocked drain or a trip shortens: a step of ×1.25 from less than four weeks is less than a week, so what goes there would not come back by itself. */
  minWeeksUnlessSevere: number;
  maxWeeks: Record<IntervalTask, number>;
  /** Longest first interval for a unit nobody has looked at yet. */
  maxWeeksWithoutHistory: number;
  /** Most by which one step may lengthen an interval. */
  loosenFactor: number;
  /** Clean findings running that loosening asks for. */
  cleanFindings: number;
  /** Worst coil grade that still counts as clean. */
  cleanGrade: CoilGrade;
  /** Days within which a packed coil, a block of ice, a blocked drain or a trip brings somebody back. */
  returnWithinDays: number;
  /** Differences smaller than this share of the interval are left alone. */
  deadBand: number;
};

// Judgement of what is usual; costs in US dollars. Every one is a setting.
export const DEFAULT_POLICY: ShopPolicy = {
  risk: 0.2,
  limits: [{ name: 'cooling lost', lnK: -0.45 }],
  cleaningCost: 60,
  inspectionCost: 25,
  energyCostPerDayPerLnK: 0.8,
  failureCost: 900,
  failureLimit: { name: 'trip temperature', lnK: -0.75 },
  hiddenFailureCostPerDay: 15,
  minWeeks: 2,
  minWeeksUnlessSevere: 4,
  maxWeeks: { coil_cleaning: 52, drain_inspection: 26, evaporator_inspection: 26 },
  maxWeeksWithoutHistory: 13,
  loosenFactor: 1.25,
  cleanFindings: 2,
  cleanGrade: 'filmed',
  returnWithinDays: 7,
  deadBand: 0.1,
};

/** What warranty or contract asks of one task, in weeks; the tighter of these and the shop's own bounds holds. */
export type Bounds = { minWeeks?: number; maxWeeks?: number; maxReason?: 'warranty' | 'contract' };
