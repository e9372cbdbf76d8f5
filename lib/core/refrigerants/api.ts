/** Everything of this room except the data: for code that also runs where only a fleet's refrigerants are loaded. */
export { REFRIGERANTS, REFRIGERANT_IDS, type RefrigerantInfo, type SafetyClass } from './catalogue';
export { saturationDome } from './dome';
export { isRegistered, type Limits } from './engine';
export * from './properties';
export { safetyOf, type Safety } from './safety';
export { isFailure, known, PropertyError, type FailureStatus, type PropertyFailure, type Result, type State } from './types';
