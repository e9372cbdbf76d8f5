/** Where a place is, as people write it. */
export { readPosition, writePosition, type Position } from './read-position';
