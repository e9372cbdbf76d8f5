/** Where a place is, as people write it. */
export type { Answer, Ask } from './answer';
export { disagrees, learnt, metresBetween, MOST_ACCURACY_M, type Learnt } from './arrivals';
export { judge, type Candidate, type Confidence, type Judged } from './candidates';
export { isShortPosition, readPosition, writePosition, type Position } from './read-position';
