import { describe, expect, it } from 'vitest';
import { emptyRow } from '@/lib/core/fleet-csv';
import { unfitRows } from '@/lib/core/fleet-csv/unfit';
import { knownUnits, updateOf } from '@/lib/core/fleet-csv/units-on-file';
import { blankUnit, type UnitValues } from '@/lib/core/equipment/unit-fields';

const values = (over: Partial<UnitValues>): UnitValues => ({ ...blankUnit('reach_in'), name: 'Cooler', kind: 'reach_in', placement: 'line', refrigerant: 'R290', ...over }); // prettier-ignore
const known = (id: string, over: Partial<UnitValues>, kitchen = 'Ash One') => ({ id, version: 3, archived: false, customer: 'Ash', kitchen, values: values(over) }); // prettier-ignore
const row = (unit: object, names: object = { customer: 'Ash', kitchen: 'Ash One' }) => ({ ...emptyRow(), names: { ...emptyRow().names, ...names }, unit: { ...emptyRow().unit, ...unit } }); // prettier-ignore

describe('which unit on file a row is about', () => {
  const units = [
    known('a', { tag: 'A-1', serial: 'SN 10-44' }),
    known('b', { name: 'Prep', serial: '777' }),
    known('c', { name: 'Bar', serial: 'TWICE1' }),
    known('d', { name: 'Bar', serial: 'twice-1' }, 'Ash Two'),
    known('e', { name: 'Bare' }),
  ];
  const found = (unit: object, names?: object) => knownUnits(units)(row(unit, names))?.id;

  it('is known by its tag, else by its serial however it is written, wherever it now stands', () => {
    expect(found({ tag: 'a-1', name: 'Something else' }, { customer: 'Elm', kitchen: 'Elm' })).toBe('a');
    expect(found({ serial: 'sn1044' }, {})).toBe('a');
    expect(found({ tag: 'A-1', serial: 'TWICE1' })).toBe('a');
  });

  it('is not known by a serial that is too short, that two have, or that none has', () => {
    expect(found({ serial: '777' }, {})).toBeUndefined();
    expect(found({ serial: 'TWICE1' }, {})).toBeUndefined();
    expect(found({ serial: 'NEW-9999' }, {})).toBeUndefined();
  });

  it('is known by its name in its kitchen, unless it has another serial', () => {
    expect(found({ name: ' bAR' })).toBe('c');
    expect(found({ name: 'Bar' }, { customer: 'ash', kitchen: 'Ash  Two' })).toBe('d');
    expect(found({ name: 'Bar' }, { customer: 'Ash' })).toBeUndefined();
    expect(found({ name: 'Bar' }, { kitchen: 'Ash One' })).toBeUndefined();
    expect(found({})).toBeUndefined();
    expect(found({ name: 'Nothing' })).toBeUndefined();
    expect(found({ name: 'Cooler', serial: 'OTHER-1' })).toBeUndefined();
    expect(found({ name: 'Prep', serial: '7-7-7' })).toBe('b');
    expect(found({ name: 'Bare', serial: 'OTHER-1' })).toBe('e');
  });
});

describe('what a row changes of a unit on file', () => {
  const unit = known('a', { chargeKg: 1, make: 'Holm', refrigerant: 'unknown' });
  const set = (given: object, how: Parameters<typeof updateOf>[2]) => updateOf(unit, row(given), how, 7)?.set ?? null;
  const given = { chargeKg: 2, make: '', model: 'M4', serial: 'S1', refrigerant: 'R404A' };

  it('is what is blank there, all that the file says, or nothing, as the office chose', () => {
    expect(set(given, 'fill')).toEqual({ model: 'M4', serial: 'S1', refrigerant: 'R404A' });
    expect(set(given, 'replace')).toEqual({ chargeKg: 2, model: 'M4', serial: 'S1', refrigerant: 'R404A' });
    expect(set(given, 'leave')).toBeNull();
  });

  it('is never a blank over something, nor what names the unit, nor a number that only went through another unit', () => {
    expect(set({ chargeKg: null, make: '', refrigerant: 'unknown' }, 'replace')).toBeNull();
    expect(set({ tag: 'N-1', name: 'New', kind: 'display' }, 'replace')).toBeNull();
    expect(set({ chargeKg: 1 + 1e-9 }, 'replace')).toBeNull();
    expect(set({ chargeKg: 1.001 }, 'replace')).toEqual({ chargeKg: 1.001 });
  });

  it('says which unit, as it stood, and which line', () => {
    expect(updateOf(unit, row({ model: 'M4' }), 'fill', 7)).toEqual({ unitId: 'a', version: 3, name: 'Cooler', line: 7, set: { model: 'M4' } }); // prettier-ignore
  });
});

describe('rows that cannot be filed', () => {
  const problem = (line: number, column: string, severity: 'error' | 'note' = 'error') => ({ line, column, value: '', message: `No ${column}.`, severity }) as Parameters<typeof unfitRows>[0][number]; // prettier-ignore
  it('are counted once each, with their troubles and the first five rows of each', () => {
    const told = unfitRows([...[2, 3, 4, 5, 6, 7].map((line) => problem(line, 'kind')), problem(7, 'unit'), problem(9, 'tag', 'note')]);
    expect(told).toEqual({
      rows: 6,
      causes: [
        { column: 'kind', message: 'No kind.', rows: 6, first: [2, 3, 4, 5, 6] },
        { column: 'unit', message: 'No unit.', rows: 1, first: [7] },
      ],
    });
    expect(unfitRows([])).toEqual({ rows: 0, causes: [] });
    expect(unfitRows('abcdefghij'.split('').map((c, i) => problem(i, c)))).toMatchObject({ rows: 10, causes: { length: 8 } });
  });
});
