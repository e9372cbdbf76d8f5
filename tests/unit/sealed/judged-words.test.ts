import { expect, it } from 'vitest';
import { vacuumFigures } from '@/lib/core/sealed/judged';
import type { VacuumJudgement } from '@/lib/core/sealed/vacuum-decay';

const level = { median: 402.4, lo: 380.2, hi: 1451 };
const judged = (over: Partial<VacuumJudgement>): VacuumJudgement => ({
  ...{ verdict: 'not_yet', leak: 0.23, wet: 0.004, rate: { median: 0.1, lo: 0, hi: 3.8 }, level, waitMinutes: null },
  ...over,
});
const LEVEL =
  'Without a leak it would level off near 402 microns (380 to 1,451, four times in five); chance that this is above 500: below 1 %.';

// What a technician reads of a vacuum: each figure with what it is of, its unit and how sure it is.
it.each<[string, Partial<VacuumJudgement>, string]>([
  ['a rise that may be nothing is told by the most it may be', {}, 'Chance of a leak: 23 %; it rises in a straight line by at most 4 microns a minute (nine times in ten).'],
  ['one micron is one', { rate: { median: 0.4, lo: 0, hi: 1.2 } }, 'Chance of a leak: 23 %; it rises in a straight line by at most 1 micron a minute (nine times in ten).'],
  ['none where it rounds to nothing', { rate: { median: 0.1, lo: 0, hi: 0.4 } }, 'Chance of a leak: 23 %.'],
  ['a rise that is there is told with its band', { leak: 0.999, rate: { median: 22.6, lo: 20.4, hi: 25.1 } }, 'Chance of a leak: above 99 %; it rises in a straight line by 23 microns a minute (20 to 25, four times in five).'],
  ['and none at all where no leak is believed', { leak: 0.002, rate: { median: 5, lo: 4, hi: 6 } }, 'Chance of a leak: below 1 %.'],
])('%s', (_, over, said) => expect(vacuumFigures(judged(over), 500)).toBe(`${said} ${LEVEL}`)); // prettier-ignore
