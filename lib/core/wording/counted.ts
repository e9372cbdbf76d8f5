import { whole } from '../measures/figures';

/** Small counts stand on the round's first screen, where making a number formatter would hold up a cold start. */

/** "1 task", "1,234 tasks". */
export const counted = (n: number, one: string, many = `${one}s`): string => `${whole(n)} ${n === 1 ? one : many}`;
