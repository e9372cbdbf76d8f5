import { chosenSheet } from './read-sheet';
import type { RawSheet, SheetChoices, SheetReading } from './types';

/** What a page shows of a sheet as it was read: bounded, however large the sheet. */
export type SheetView = Pick<SheetReading, 'columns' | 'headerLine' | 'groups' | 'questions' | 'assumptions'> & {
  /** The first rows in the fleet file's columns; the first holds the names. */
  lines: SheetReading['lines'];
  rows: number;
  /** Names of the workbook's sheets, and which was read. */
  sheets: string[];
  chosen: number;
  /** How many of its tabs have the same columns, and can be read as one; 0 where none do. */
  tabs?: number;
  /** How many groups of values are not among `groups`. */
  moreGroups: number;
};

const LINES = 13;
const MOST_GROUPS = 120;

/** What is still to be decided comes first where not all fits. */
export function viewOf(reading: SheetReading, sheets: readonly RawSheet[], choices: SheetChoices): SheetView {
  const { chosen, alike } = chosenSheet(sheets, choices);
  const { columns, headerLine, groups, questions, assumptions, lines, rows } = reading;
  const first = groups.length > MOST_GROUPS ? [...groups.filter((g) => g.open), ...groups.filter((g) => !g.open)] : groups;
  return {
    columns,
    headerLine,
    questions,
    assumptions,
    rows,
    lines: lines.slice(0, LINES),
    groups: first.slice(0, MOST_GROUPS),
    moreGroups: Math.max(0, groups.length - MOST_GROUPS),
    sheets: sheets.map((s) => s.name),
    tabs: alike,
    chosen,
  };
}
