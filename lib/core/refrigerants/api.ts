/** Everything of this room except the data: for code that also runs where only a fleet's refrigerants are loaded. */
export { REFRIGERANTS, REFRIGERANT_IDS, type RefrigerantInfo } from './catalogue';
export { saturationDome } from './dome';
export * from './properties';
export { safetyOf } from './safety';
export { isFailure, unwrap, PropertyError, type PropertyFailure, type Result, type State } from './types';
