/** What the demo shop should have to show, by kitchen and unit. */
export type Story = {
  /** A coil that no cleaning brings back: deposit (fall of ln K) that stays, reached in the last year. */
  pastSaving?: number;
  /** The condenser fan dies so many days before today. */
  fanDiesDaysAgo?: number;
  /** Mean days between drain failures; usual is three and a half years. */
  drainDays?: number;
  /** The drain stops again so many days after each clearing: every inspection finds it. */
  drainStopsAfterDays?: number;
};

export const UNIT_STORIES: Record<string, Story> = {
  'Eastgate/Walk-in freezer': { drainStopsAfterDays: 28 },
  'Dock Street/Reach-in by fryer 1': { pastSaving: 0.58 },
  'Union Street/Milkshake undercounter': { fanDiesDaysAgo: 110 },
  'Harbour Hall/Fish counter left': { drainStopsAfterDays: 16 },
  'Harbour Hall/Fish counter right': { drainDays: 90 },
  'Patient kitchen/Milk undercounter': { drainDays: 80 },
  'Main kitchen/Produce walk-in': { drainStopsAfterDays: 24 },
  'Pearl Row/Walk-in cooler': { drainDays: 120 },
};

/** Kitchens that nobody could agree a date with lately: their work is overdue. Days before today since when. */
export const NOT_REACHED_DAYS: Record<string, number> = { 'Central kitchen': 50, 'Kiln Yard': 42 };
