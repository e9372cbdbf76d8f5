import { describe, expect, it } from 'vitest';
import { keysOf } from '@/lib/core/typed/closed-set';
import { blankUnit, UNIT_KEYS, unitField, unitValues, type UnitValues } from '@/lib/core/equipment/unit-fields';
import { fieldWords, unitFacts } from '@/lib/core/equipment/unit-words';
import { allColumns, emptyRow } from '@/lib/core/fleet-csv';
import { PAYLOADS } from '@/lib/schemas/tablet/entries';
import { UNIT_FORM } from '@/lib/schemas/equipment/unit-field';
import { columnsOf, enumOf } from '../../support/prisma-schema';

const OWN = { temperature: 'F', pressure: 'psig', mass: 'oz' } as const;
const UNIT: UnitValues = {
  ...blankUnit('walk_in_cooler'),
  name: 'Walk-in',
  tag: 'W-1',
  kind: 'walk_in_cooler',
  placement: 'outdoors',
  refrigerant: 'R402A',
  chargeKg: 2.5,
  cutoutPaGauge: 2.7e6,
  boxSetK: 275,
  headControl: true,
  nominalCoolingW: 2800,
  runHoursPerDay: 16,
  airOverRoomK: 3,
  airProfile: 'season',
  thermometerClass: 'tc_1',
  roofWork: true,
  make: 'Holm',
  model: 'W',
  serial: '7',
  notes: 'Hatch',
};

describe.each(UNIT_KEYS)('the field %s of a unit', (key) => {
  const field = unitField(key);

  it('is a column, and null there where it may be unknown', () => {
    const type = columnsOf('Unit').get(key);
    expect(type).toBeDefined();
    const unknown = field.type === 'measured' || field.type === 'maybe' || (field.type === 'choice' && field.empty === 'unknown');
    expect(type?.endsWith('?')).toBe(unknown);
    if (field.type === 'choice') expect(enumOf(type?.replace('?', '') ?? '')).toEqual(keysOf(field.labels));
  });

  it('stands in the form, in the file and in words', () => {
    expect(UNIT_FORM).toHaveProperty(key);
    expect(fieldWords(field, UNIT[key], OWN)).toBeTruthy();
    const columns = allColumns([]).filter((c) => c.field === `unit.${key}`);
    expect(columns.length).toBeGreaterThan(0);
    for (const column of columns) {
      const row = { ...emptyRow(), unit: { ...UNIT } };
      const back = emptyRow();
      expect(column.take(column.put(row), back)).toBeNull();
      if (typeof UNIT[key] === 'number') expect(Number(back.unit[key]) / UNIT[key]).toBeCloseTo(1, 9);
      else expect(back.unit[key]).toBe(UNIT[key]);
    }
  });
});

describe('a unit', () => {
  it('can be put on file by a tablet with all of it, or with what must be said alone', () => {
    const { tag: _, ...sent } = UNIT;
    const unitId = '6f1f3a58-2a0e-4d43-9e68-0c3b0a5f3a10';
    expect(PAYLOADS['unit.add'].parse({ unitId, ...sent })).toEqual({ unitId, ...sent });
    const least = { unitId, name: 'Bar', kind: 'undercounter', placement: 'bar', refrigerant: 'unknown' };
    expect(PAYLOADS['unit.add'].parse(least)).toEqual(least);
  });

  it('says what is not known, and says nothing of what is empty', () => {
    const facts = new Map(unitFacts({ ...UNIT, ...blankUnit('reach_in') }, OWN));
    expect(facts.get('Head pressure held up in cold air')).toBe('Not known');
    expect(facts.get('Nominal cooling')).toBe('Not on file');
    expect(facts.has('Charge')).toBe(false);
    expect(new Map(unitFacts({ ...UNIT, headControl: false }, OWN)).get('Head pressure held up in cold air')).toBe('Not held up');
  });

  it('keeps nothing that is not its own', () => {
    expect(unitValues({ ...UNIT, version: 3 } as UnitValues)).toEqual(UNIT);
  });
});
