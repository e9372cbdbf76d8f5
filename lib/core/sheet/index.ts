/** A sheet of any form, read into the rows of the fleet file. Pure: rows and choices in, questions and lines out. */
export { readSheet, type SheetContext } from './read-sheet';
export { ALL_TABS } from './together';
export { forTheNext } from './questions';
export { LEAVE, TARGETS } from './targets';
export { unitLines } from './unit-lines';
export { viewOf, type SheetView } from './view';
export { KIND_OPTIONS, PLACEMENT_OPTIONS, refrigerantOptions, type Option } from './values';
export {
  NO_CHOICES,
  type Question,
  type RawSheet,
  type SheetChoices,
  type SheetColumn,
  type SheetReading,
  type Assumption,
  type ValueGroup,
} from './types';
