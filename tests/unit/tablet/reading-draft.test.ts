import { expect, it } from 'vitest';
import { gaugeOf } from '@/app/(tablet)/round/_lib/reading-draft';
import type { Me, ReadingField } from '@/lib/core/tablet';

const me = { gaugeGrade: 'B', gaugeSpanPa: 3.4e6 } as Me;
const NONE = { gaugeGrade: null, gaugeSpanPa: null };

it.each<[ReadingField, boolean]>([
  ['headPaGauge', true],
  ['suctionPaGauge', true],
  ['offCyclePaGauge', true],
  ['condensingClampK', false],
  ['ampsA', false],
])('a reading of %s alone was taken with the gauge: %s', (field, gauged) =>
  expect(gaugeOf({ [field]: 1 }, me)).toEqual(gauged ? { gaugeGrade: 'B', gaugeSpanPa: 3.4e6 } : NONE),
);

it('names no gauge before it is known whose', () => expect(gaugeOf({ headPaGauge: 1 }, null)).toEqual(NONE));
