/** Small counts stand on the round's first screen, where making a number formatter would hold up a cold start. */
const figure = (n: number): string => (n < 1000 ? String(n) : n.toLocaleString('en-US'));

/** "1 task", "1,234 tasks". */
export const counted = (n: number, one: string, many = `${one}s`): string => `${figure(n)} ${n === 1 ? one : many}`;
