import type { EntryResult } from '../entries/entries';
import type { Me, VisitOnFile } from './state';

/** Why the rest of a batch was left: the device sends it again, from `lastSeq + 1`. */
export type Stop =
  /** An earlier entry has not arrived yet. */
  | 'gap'
  /** The number was used before by another entry: the device must take a new identity and count anew. */
  | 'renumber'
  /** The tablet runs a newer version than the office. */
  | 'office_older'
  | 'unexpected';

export type SyncReply = { results: EntryResult[]; lastSeq: number; stopped: Stop | null };

export type RoundReply = {
  /** The office's clock as it answered. */
  serverTime: string;
  me: Me;
  /** Opaque; sent back to hear only what changed. */
  cursor: string;
  /** Every visit of the round, in order; those not in `changed` are as the device has them. */
  order: string[];
  changed: VisitOnFile[];
  /** The moment of the last backup the office knows of; null where it knows of none. */
  backedUpAt: string | null;
  /** Entries of this device up to here are in what is told. */
  lastSeq: number;
};

/** Pieces a photo goes up in: small enough that one lost on a bad line costs little. */
export const CHUNK_BYTES = 256 * 1024;
/** Which pieces of a photo have arrived, and whether it is whole. */
export type UploadState = { have: number[]; done: boolean };
