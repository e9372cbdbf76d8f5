export * from './operations';
export * from './state';
export * from './protocol';
export * from './own-units';
export { foldVisit } from './fold';
export { stands } from './newer';
export { COIL_CLEANING, LOW_SIDE_ASPECTS, lowSideUnlooked, missingToClose, type Missing } from './ready';
