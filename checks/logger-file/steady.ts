import type { LogRow } from './rows';

export type Running = 'running' | 'not_running' | 'not_steady';

/** Rows further apart than this tell nothing of each other, minutes. */
const NEIGHBOUR_MIN = 20;
/** Steady running asked for after a start, minutes: the trade's ten. */
const SETTLING_MIN = 10;
/** A rise that moved more than this since the row before is not settled, K: several times the scatter of a steady day. */
const SETTLED_K = 2.5;
/** Below this the compressor stands: condensing at the air, or hardly more pressure on one side than the other. */
const STANDING_RISE_K = 1;
const STANDING_RATIO = 1.2;

function stands(row: LogRow, rise: number): boolean {
  if (rise < STANDING_RISE_K) return true;
  return row.suctionPa !== undefined && row.headPa !== undefined && row.headPa < STANDING_RATIO * row.suctionPa;
}

/**
 * Whether the machine stands, is still settling, or runs steadily, row by row in time order within one unit. Only
 * neighbours in time are compared: a file with steady rows already picked out loses none of them.
 */
export function running(rows: readonly LogRow[], rises: readonly number[]): Running[] {
  // Minute of the first running row after a start that was seen; NaN when none was.
  let started = NaN;
  return rows.map((row, i) => {
    const rise = rises[i] as number;
    if (stands(row, rise)) {
      started = NaN;
      return 'not_running';
    }
    const before = rows[i - 1];
    const neighbours = before !== undefined && row.minute - before.minute <= NEIGHBOUR_MIN;
    if (!before || !neighbours) {
      started = NaN;
      return 'running';
    }
    const riseBefore = rises[i - 1] as number;
    if (stands(before, riseBefore)) started = row.minute;
    if (row.minute - started < SETTLING_MIN) return 'not_steady';
    if (before.state !== row.state) return 'running';
    return Math.abs(rise - riseBefore) > SETTLED_K ? 'not_steady' : 'running';
  });
}
