import fc from 'fast-check';
import { expect, it } from 'vitest';
import { allColumns, columnsIn, emptyRow, planFleet, template, writeRow } from '@/lib/core/fleet-csv';
import { guarded, unguarded } from '@/lib/core/fleet-csv/row';
import { TASK_KINDS } from '@/lib/core/tasks/kinds';

const kinds = TASK_KINDS;
const columns = allColumns(kinds);
const onFile = { customers: new Map(), kitchens: new Map(), tags: new Set<string>() };

it('reads its own template without a complaint', () => {
  const lines = template(kinds).map((cells, i) => ({ line: i + 1, cells }));
  const { problems, units, kitchens } = planFleet(lines, { columns, kinds, onFile, shopTimeZone: 'UTC', now: Date.UTC(2026, 2, 4) });
  expect(problems).toEqual([]);
  expect([units.length, kitchens.length]).toEqual([3, 1]);
});

it('brings measured values back through either unit', () => {
  const by = (header: string) => columns.find((c) => c.header === header) ?? expect.fail(`no column ${header}`);
  const pairs = [['altitude_ft', 'altitudeM', -400, 4900], ['hot_day_air_f', 'hotDayAirK', 274, 333], ['hot_day_air_c', 'hotDayAirK', 274, 333]] as const; // prettier-ignore
  for (const [header, field, lo, hi] of pairs)
    fc.assert(
      fc.property(fc.double({ min: lo, max: hi, noNaN: true }), (value) => {
        const out = emptyRow();
        out.kitchen[field] = value;
        const back = emptyRow();
        expect(by(header).take(by(header).put(out), back)).toBeNull();
        expect(back.kitchen[field]).toBeCloseTo(value, 6);
        // What was written once is written the same again.
        expect(by(header).put(back)).toBe(by(header).put(out));
      }),
    );
});

it('guards formulas and takes the guard off again, whatever the text', () => {
  const text = fc.oneof(
    fc.string(),
    fc.string().map((s) => `=${s}`),
    fc.string().map((s) => `'-${s}`),
  );
  fc.assert(
    fc.property(text, (s) => {
      expect(unguarded(guarded(s))).toBe(s);
    }),
  );
  expect(guarded('=HYPERLINK("x")')).toBe(`'=HYPERLINK("x")`);
  expect(guarded('-87.63')).toBe('-87.63');
});

it('leaves one column for each measured value in an export', () => {
  const chosen = columnsIn({ temperature: 'C', pressure: 'bar', mass: 'g' }, kinds);
  expect(new Set(chosen.map((c) => c.field)).size).toBe(chosen.length);
  expect(chosen.map((c) => c.header)).toEqual(expect.arrayContaining(['hot_day_air_c', 'altitude_m', 'charge_g', 'cutout_bar', 'box_c']));
  expect(writeRow(emptyRow(), chosen)).toEqual(chosen.map(() => ''));
});
