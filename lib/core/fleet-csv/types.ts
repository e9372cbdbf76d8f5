import type { WeeklyWindow } from '../visits/service-hours';
import type { Anchor, LocalDate, Weekday } from '../calendar';
import type { UnitValues } from '../equipment/unit-fields';

/** A kitchen's fields as the file can give them, SI. */
export type KitchenValues = {
  address: string;
  timeZone: string;
  altitudeM: number;
  lat: number | null;
  lng: number | null;
  serviceHours: WeeklyWindow[];
  accessNotes: string;
  contactName: string;
  contactPhone: string;
  contactEmail: string;
  energyPricePerKwh: number | null;
  hotDayAirK: number;
  preferredWeekday: Weekday | null;
};

/** What a file says of one task: a rule, "none" for no such task, dates. */
export type TaskValues = { rule: string | 'none'; anchor: Anchor; firstDue: LocalDate; lastDoneOn: LocalDate; locked: boolean };

export type NameValues = { customer: string; kitchen: string };
export type RowValues = {
  names: Partial<NameValues>;
  kitchen: Partial<KitchenValues>;
  unit: Partial<UnitValues>;
  tasks: Map<string, Partial<TaskValues>>;
};

/** A line of the file: its number as an editor counts them, and its cells by position. */
export type Line = { line: number; cells: readonly string[] };

export type Problem = {
  /** 1 is the header. */
  line: number;
  /** Header of the column, or empty when the whole line is meant. */
  column: string;
  value: string;
  /** What is wrong and what to do. */
  message: string;
  /** An error stops the import; a note is only told. */
  severity: 'error' | 'note';
};

/** A kind of task on file, as columns are made from it. */
export type TaskKindInfo = { key: string; label: string; defaultWeeks: number; minWeeks: number; maxWeeks: number };

export const emptyRow = (): RowValues => ({ names: {}, kitchen: {}, unit: {}, tasks: new Map() });

export const IMPORT_STATUSES = ['checked', 'running', 'done', 'failed', 'undone'] as const;
/** How the import of a file stands. */
export type ImportStatus = (typeof IMPORT_STATUSES)[number];
