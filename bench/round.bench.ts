import { measureRound, type RoundFigures } from './round/measure';
import type { BenchRow } from './types';

let measured: Promise<RoundFigures> | undefined;
const figures = () => (measured ??= measureRound());

export const rows: BenchRow[] = [
  { name: 'Round, browser slowed 4×: cold open of a visit without signal, median of 5', unit: 'ms', target: '< 1,000 ms', run: async () => ({ value: (await figures()).coldOpenMs }) },
  { name: 'The same: answer to the slowest kind of tap (open a unit, grade, pad, key with estimate), median of 5', unit: 'ms', target: '< 100 ms', run: async () => ({ value: (await figures()).tapMs }) },
  { name: 'JavaScript of the round, with the refrigerants of one fleet, gzipped', unit: 'kB', target: '≤ 170 kB', run: async () => ({ value: (await figures()).scriptKb }) },
  { name: 'Round of 8 visits × 12 units with 60 photos, slowed 4×: sent', unit: 's', target: '< 20 s', run: async () => ({ value: (await figures()).syncSeconds }) },
];
