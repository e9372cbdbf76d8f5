/** What a world is like. Everything here is invented; nobody who decides in it is told any of it. */
export type WorldKind = {
  name: string;
  description: string;
  /** Times as fast as the invented usual. */
  speed: number;
  /** Share of grades written down that are any grade at all. */
  misread: number;
  /** Share of kitchens that get a fryer (or another menu, or longer hours), and times as fast from then on. */
  change: { share: number; from: number; to: number };
  /** Weeks of fluff in early summer: times as fast outdoors; 1 = none. More of such a fleet stands outdoors. */
  fluff: number;
  /** What a cleaning takes off: each technician's own habit, or all over the place. */
  cleaning: 'steady' | 'uneven';
  /** Share of units whose growth levels off, and whose growth feeds on itself. */
  levelling: number;
  accelerating: number;
};

const MILD: WorldKind = {
  name: 'mild',
  description: 'the invented usual',
  speed: 1,
  misread: 0,
  change: { share: 0, from: 1, to: 1 },
  fluff: 1,
  cleaning: 'steady',
  levelling: 0.2,
  accelerating: 0,
};

export const WORLDS: readonly WorldKind[] = [
  MILD,
  { ...MILD, name: 'misread', description: '15 % of grades are any grade', misread: 0.15 },
  { ...MILD, name: 'change', description: 'a fryer added in half the kitchens', change: { share: 0.5, from: 2.5, to: 4.5 } },
  { ...MILD, name: 'fluff', description: 'cottonwood outdoors in early summer', fluff: 8 },
  { ...MILD, name: 'uneven', description: 'cleaning takes off 45–100 %', cleaning: 'uneven' },
  { ...MILD, name: 'levelling', description: 'growth levels off', levelling: 0.85 },
  { ...MILD, name: 'accelerating', description: 'growth feeds on itself', levelling: 0, accelerating: 0.85 },
  { ...MILD, name: 'fast', description: 'everything twice as fast', speed: 2 },
  { ...MILD, name: 'slow', description: 'everything 2.5 times slower', speed: 0.4 },
  {
    name: 'together',
    description: 'all of it',
    speed: 1.3,
    misread: 0.1,
    change: { share: 0.35, from: 2, to: 4 },
    fluff: 6,
    cleaning: 'uneven',
    levelling: 0.3,
    accelerating: 0.3,
  },
];
