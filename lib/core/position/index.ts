/** Where a place is, as people write it. */
export type { Answer, Ask } from './answer';
export { disagrees, learnt, LEAST_ARRIVALS, metresBetween, MOST_ACCURACY_M, type Fix, type Learnt } from './arrivals';
export { judge, type Candidate, type Confidence, type Judged } from './candidates';
export { readPosition, writePosition, type Position } from './read-position';
