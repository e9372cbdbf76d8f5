/** A sheet as it was handed in: rows of texts, dates as 2024-03-16. `from` is the number of the first row as the sheet counts. */
export type RawSheet = { name: string; rows: string[][] };

/** What somebody decided about a sheet; what is not here is guessed. All of it survives to the next sheet of that form. */
export type SheetChoices = {
  sheet?: number;
  /** By position of the sheet's column: a target, `notes` or `leave`. */
  columns: Record<number, string>;
  /** By target, then by folded value: what the file gets, '' for nothing. */
  values: Record<string, Record<string, string>>;
  /** Answers that hold for a whole column or sheet. */
  answers: Record<string, string>;
};
export const NO_CHOICES: SheetChoices = { columns: {}, values: {}, answers: {} };

export type SheetColumn = {
  at: number;
  header: string;
  samples: string[];
  filled: number;
  target: string;
  /** Whether somebody chose it. */
  chosen: boolean;
};

/** Values that read alike, with what they are taken for. `open`: nobody can tell without asking. */
export type ValueGroup = { target: string; key: string; value: string; rows: number; taken: string; chosen: boolean; open: boolean };

/** Something to decide, once. */
export type Question = {
  id: string;
  text: string;
  rows: number;
  examples: string[];
  options: { value: string; label: string }[];
  answer: string;
  open: boolean;
};

/** What was done without asking: told, not hidden. `column` is '' where no one column is meant; `lines` are the first of them. */
export type Assumption = { column: string; text: string; rows: number; lines: number[]; examples: string[] };
export type SheetLine = { line: number; cells: string[] };

export type SheetReading = {
  columns: SheetColumn[];
  headerLine: number;
  groups: ValueGroup[];
  questions: Question[];
  assumptions: Assumption[];
  /** In the columns and words of the fleet file; the first holds the names. */
  lines: SheetLine[];
  /** Rows of the sheet that are units. */
  rows: number;
};
