/** A change as it is told: who did what to a record, when, and each field from what to what. */
export type ChangeOnFile = {
  id: string;
  at: Date;
  by: string;
  action: string;
  /** What of the record it was, where not the record itself: the name of a task, a certificate. */
  part: string;
  changed: { field: string; from: unknown; to: unknown }[];
  /** What was noted beside, by its name. */
  more: [name: string, value: unknown][];
};
