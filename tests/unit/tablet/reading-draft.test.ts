import { expect, it } from 'vitest';
import { firstFields, gaugeOf, moreFields } from '@/app/(tablet)/round/_lib/reading-draft';
import { readingHint } from '@/lib/core/entries/reading-fields';
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

it('asks no gauge of a circuit on file as sealed; what needs one comes last and says so', () => {
  const sealed = { kind: 'undercounter', condenserKind: 'fin_and_tube', circuitAccess: 'sealed' } as const;
  const gauged: ReadingField[] = ['headPaGauge', 'suctionPaGauge', 'headAgainPaGauge', 'offCyclePaGauge'];
  expect(firstFields(sealed).filter((f) => gauged.includes(f))).toEqual([]);
  expect(moreFields(sealed).slice(-4)).toEqual(gauged);
  for (const f of gauged) {
    expect(readingHint(f, sealed)).toMatch(/sealed/);
    expect(readingHint(f, { circuitAccess: 'ports' })).not.toMatch(/sealed/);
  }
  expect(firstFields({ ...sealed, circuitAccess: 'ports' })[0]).toBe('headPaGauge');
});
