/**
 * A whole fleet as a table: one row a unit, its kitchen's details beside it. Reading is pure: lines in, a plan and its
 * problems out. Measured columns carry their unit in the name, so that no number is ever read in the wrong one.
 */
export { allColumns } from './columns';
export { fold, kitchenKey, type KitchenUpdate, type KnownUnit, type OnFile } from './kitchens';
export { knownUnits, type OnFilePolicy, type PlannedUpdate } from './units-on-file';
export { planFleet, type FleetPlan } from './plan';
export { guarded, unguarded, writeRow } from './row';
export { columnsIn, template } from './template';
export { unfitRows, type UnfitRows } from './unfit';
export {
  emptyRow,
  IMPORT_STATUSES,
  type ImportStatus,
  type KitchenValues,
  type Line,
  type Problem,
  type RowValues,
  type TaskKindInfo,
} from './types';
