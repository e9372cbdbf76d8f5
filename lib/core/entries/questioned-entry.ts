type Named = { id: string; name: string };

/** An entry of a tablet that was filed with a question, or could not be filed. Times are epoch milliseconds. */
export type QuestionedEntry = {
  id: string;
  kind: string;
  outcome: 'conflict' | 'rejected';
  /** What the office answered. */
  note: string;
  by: string;
  device: string;
  madeAt: number;
  receivedAt: number;
  /** The kitchen's; the shop's where the kitchen is not known. */
  timeZone: string;
  /** Null where neither its visit nor its unit is on file. */
  kitchen: (Named & { customer: Named }) | null;
  visit: { id: string; startsAt: number } | null;
  unit: Named | null;
  /** As it came. */
  payload: unknown;
  /** What ids in the payload stand for, as far as that is on file. */
  names: Record<string, string>;
  /** The picture it is about, if that has arrived. */
  fileId: string | null;
  settled: { by: string; at: number; note: string } | null;
};
