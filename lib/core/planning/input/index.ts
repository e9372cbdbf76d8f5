/** What the planner is given, proved before it searches. */
export { assumedDrive } from './assumed-drive';
export { checkInput, type Finding, type InputFacts, type MendAt } from './check-input';
