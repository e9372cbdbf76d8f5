import 'server-only';
import type { Operation, OperationKind } from '../../core/round';
import type { Tx } from '../../data/client';

/** A visit as the operation finds it, its row locked. */
export type LockedVisit = {
  id: string;
  kitchenId: string;
  technicianId: string;
  status: 'booked' | 'started' | 'done' | 'cancelled';
  timeZone: string;
  arrivedAt: Date | null;
  signedAt: Date | null;
};

export type ApplyContext = {
  db: Tx;
  actor: { userId: string; name: string };
  now: Date;
  deviceId: string;
  visit: LockedVisit;
  unit: (id: string) => Promise<{ id: string; name: string; kitchenId: string; archivedAt: Date | null } | null>;
  /** When the entry was made, in the office's time. */
  at: Date;
  /** Something the office should look at: both sides are kept. */
  note: (words: string) => void;
};

export type Of<K extends OperationKind> = Extract<Operation, { kind: K }>;
export type Handler<K extends OperationKind> = (ctx: ApplyContext, op: Of<K>) => Promise<void>;

/** A time that the technician gave: never later than now, whatever the tablet's clock says. */
export const notAfterNow = (ctx: ApplyContext, instant: string): Date => new Date(Math.min(Date.parse(instant), ctx.now.getTime()));
