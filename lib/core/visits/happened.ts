/** One thing that happened at a kitchen, newest first in a list of them. Instants in epoch milliseconds. */
export type Happened = {
  id: string;
  at: number;
  kind: 'visit' | 'mail' | 'job' | 'rule';
  href: string | null;
  head: string;
  /** What came of it, worst first. */
  lines: string[];
  alarm: boolean;
};

export type KitchenTimeline = {
  /** The last visit made, and the next one booked. */
  last: { id: string; at: number; technician: string; found: string[]; left: string[] } | null;
  next: { id: string; at: number; technician: string } | null;
  happened: Happened[];
};
