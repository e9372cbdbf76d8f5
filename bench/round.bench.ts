import { measureRound, type RoundFigures } from './round/measure';
import type { BenchRow } from './types';

let measured: Promise<RoundFigures> | undefined;
const figures = () => (measured ??= measureRound());

const inMs = (kinds: ReadonlyMap<string, number>) => [...kinds].map(([kind, ms]) => `${kind} ${Math.round(ms)}`).join(', ');

export const rows: BenchRow[] = [
  {
    name: 'Round, browser slowed 4×: cold open of a visit without signal, median of 5',
    unit: 'ms',
    target: '< 1,000 ms',
    run: async () => {
      const { coldOpenMs, bare } = await figures();
      return { value: coldOpenMs, reference: { name: 'a page of one heading', value: bare.openMs } };
    },
  },
  {
    name: 'The same: answer to the slowest kind of tap, median of 5',
    unit: 'ms',
    target: '< 100 ms',
    run: async () => {
      const { taps, bare } = await figures();
      return {
        value: Math.max(...taps.values()),
        reference: { name: 'a button that changes one word', value: bare.tapMs },
        detail: inMs(taps),
      };
    },
  },
  {
    name: 'JavaScript of the round, with the refrigerants of one fleet, gzipped',
    unit: 'kB',
    target: '≤ 170 kB',
    run: async () => ({ value: (await figures()).scriptKb }),
  },
  {
    name: 'Round of 8 visits × 12 units with 60 photos, slowed 4×: sent',
    unit: 's',
    target: '< 20 s',
    run: async () => {
      const { syncSeconds, bare } = await figures();
      return { value: syncSeconds, reference: { name: 'sharp alone on the same photos', value: bare.encodeSeconds } };
    },
  },
];
