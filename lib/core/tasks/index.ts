/** The kinds of recurring task: what each looks at, rides with, asks for before it counts, and is learned from. */
export * from './kinds';
export { aspectWords, neededBy, ungradedCoil, unlookedFor } from './needed';
export { BRINGING_KINDS, bringsLowSide, ridersOf, withRiders } from './rides';
