/** "1 task", "1,234 tasks". */
export const counted = (n: number, one: string, many = `${one}s`): string => `${n.toLocaleString('en-US')} ${n === 1 ? one : many}`;
