import 'server-only';
import { stands, type Entry, type EntryKind } from '../../../core/tablet';
import type { Tx } from '../../../database/client';

/** A visit as the entry finds it, its row locked. */
export type LockedVisit = {
  id: string;
  kitchenId: string;
  technicianId: string;
  status: 'booked' | 'started' | 'done' | 'cancelled';
  timeZone: string;
  arrivedAt: Date | null;
  leftAt: Date | null;
  signedAt: Date | null;
  /** The tablet it was signed on. */
  signedOn: string | null;
  nobodyThere: boolean;
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
  /** The refresh it was based on, before which it cannot have been made. */
  basedOn: Date;
  /** Something that whoever wrote it and the office should both look at: both sides are kept. */
  note: (message: string) => void;
  /** Something for the office alone to do. */
  chore: (message: string) => void;
  /** It says what another tablet's entry said already; `twin` is the one whose row stands for both. */
  same: (twin?: string) => void;
};

export type Of<K extends EntryKind> = Extract<Entry, { kind: K }>;
export type Handler<K extends EntryKind> = (ctx: ApplyContext, entry: Of<K>) => Promise<void>;

/**
 * Whether an entry stands over what another said before it. What one tablet wrote later always replaces what it wrote
 * before, even where its clock was put right in between; of two tablets the later made entry stands.
 */
export function standsOver(ctx: ApplyContext, id: string, standing: { id?: string; at: Date; deviceId: string | null }): boolean {
  if (standing.deviceId === ctx.deviceId) return true;
  return stands({ id, at: ctx.at.toISOString() }, { id: standing.id ?? '', at: standing.at.toISOString() });
}

/** A time named in an entry, by the tablet's clock. One that cannot be, because the clock is wrong, gives way to the entry's own. */
export function timeNamed(ctx: ApplyContext, instant: string): Date {
  const named = new Date(instant);
  return named < ctx.basedOn || named > ctx.now ? ctx.at : named;
}
