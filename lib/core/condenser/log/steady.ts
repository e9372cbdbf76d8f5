import type { LogRow } from './rows';

export type Running = 'running' | 'not_running' | 'not_steady';

/** Rows further apart than this tell nothing of each other, minutes. */
const NEIGHBOUR_MIN = 20;
/** A rise that moved more than this since the row before is not settled, K: several times the scatter of a steady day. */
const SETTLED_K = 2.5;
/** Below this the compressor stands: condensing at the air, or hardly more pressure on one side than the other. */
const STANDING_RISE_K = 1;
const STANDING_RATIO = 1.2;

/**
 * Whether the machine stands, is still settling, or runs steadily, row by row in time order within one unit. Only
 * neighbours in time are compared: a file with steady rows already picked out loses none of them.
 */
export function running(rows: readonly LogRow[], rises: readonly number[]): Running[] {
  const stands = (row: LogRow, rise: number) =>
    rise < STANDING_RISE_K ||
    (row.suctionPa !== undefined && row.headPa !== undefined && row.headPa < STANDING_RATIO * row.suctionPa);
  return rows.map((row, i) => {
    const rise = rises[i] as number;
    if (stands(row, rise)) return 'not_running';
    const before = rows[i - 1];
    if (!before || !(row.minute - before.minute <= NEIGHBOUR_MIN)) return 'running';
    const riseBefore = rises[i - 1] as number;
    if (stands(before, riseBefore)) return 'not_steady';
    if (before.state !== row.state) return 'running';
    return Math.abs(rise - riseBefore) > SETTLED_K ? 'not_steady' : 'running';
  });
}
