export * from '../entries/entries';
export * from './state';
export * from './protocol';
export * from './own-units';
export * from '../entries/bounds';
export { foodQuestion, foodTyped } from './food-question';
export { foldVisit } from './fold';
export { hasWork } from './has-work';
export {
  answeredTasks,
  answeredUnplanned,
  findWords,
  jobsUnsaid,
  lacksForCleaning,
  lacksForTask,
  NO_FOOD,
  openFinds,
  stillToSay,
  tooWarmForFood,
  unplannedTasks,
  untoldFood,
} from './unit-work';
export { stands } from '../entries/newer';
export { upgraded, upgradedEntry } from '../entries/upgrade';
export { missingToClose } from './ready';
export { partsForeseen, type PartForeseen } from './parts-foreseen';
