import type { Finding } from './input';
import type { VisitReason } from './explain';
import type { CostBreakdown, ReasonCode } from './types';

export const PLAN_STATUSES = ['queued', 'running', 'done', 'cancelled', 'failed', 'accepted', 'undone'] as const;
/** How a search for a week stands, and what became of what it found. */
export type PlanStatus = (typeof PLAN_STATUSES)[number];

/** What the dispatcher looks at before accepting: a plan in the shop's names. Instants in epoch milliseconds. */
export type ProposedVisit = {
  /** Stands for the visit until it is accepted. */
  key: string;
  kitchenId: string;
  kitchen: string;
  customer: string;
  timeZone: string;
  technicianId: string;
  technician: string;
  startMs: number;
  endMs: number;
  driveMinutes: number;
  taskIds: string[];
  units: number;
  /** Tasks past their due date when the visit is made. */
  overdue: number;
  /** What it is for and what it adds; absent in proposals of before. */
  reason?: VisitReason;
};

export type LeftOver = { what: string; kitchen: string; kitchenId: string; code: ReasonCode; message: string };

export type Proposal = {
  visits: ProposedVisit[];
  unplaced: LeftOver[];
  /** Tasks better left for a later trip. */
  later: number;
  cost: CostBreakdown;
  /** What the input keeps out or leaves to a guess. */
  input: Finding[];
  /** Due work in all, and how much of it the search was given. */
  due: { tasks: number; kitchens: number; searched: number };
  /** Minutes of driving that a better plan could save at most; null while that is not known. */
  couldSaveMinutes: number | null;
  proven: boolean;
  /** Booked visits that stay and that the plan drives around. */
  kept: number;
  searchMs: number;
  seed: number;
};
