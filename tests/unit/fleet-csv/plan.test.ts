import { describe, expect, it } from 'vitest';
import { allColumns, planFleet, type Line, type OnFile } from '@/lib/core/fleet-csv';
import { TASK_KINDS } from '@/lib/core/tasks/kinds';

const empty: OnFile = { customers: new Map(), kitchens: new Map(), tags: new Set() };
const lines = (table: string[][]): Line[] => table.map((cells, i) => ({ line: i + 1, cells }));
const plan = (table: string[][], onFile: OnFile = empty) =>
  planFleet(lines(table), {
    columns: allColumns(TASK_KINDS),
    kinds: TASK_KINDS,
    onFile,
    shopTimeZone: 'America/Chicago',
    now: Date.UTC(2026, 2, 4, 3),
  });

const KITCHEN = { id: 'k', version: 1, archived: false, placedByHand: true };
const HEAD = ['customer', 'kitchen', 'unit', 'kind', 'placement', 'refrigerant'];
const row = (unit: string, ...more: string[]) => ['Ash', 'Ash One', unit, 'reach_in', 'line', 'R290', ...more];
const said = (table: string[][], onFile?: OnFile) => plan(table, onFile).problems.map((p) => `${p.line} ${p.column}: ${p.message}`);

describe('a good file', () => {
  it('gives a unit what is usual for its kind and place', () => {
    const { units, problems } = plan([HEAD, row('Cooler'), ['ash', 'ASH  one', 'Walk-in', 'Walk-in freezer', 'Back of house', 'r-404a']]);
    expect(problems).toEqual([]);
    expect(units.map((u) => [u.kitchen.name, u.expansion, u.circuitAccess, u.application])).toEqual([
      ['Ash One', 'capillary', 'sealed', 'medium'],
      ['Ash One', 'valve', 'ports', 'low'],
    ]);
    expect(units[0]?.tasks.map((t) => [t.kindKey, t.rule])).toEqual([
      ['coil_cleaning', 'FREQ=WEEKLY;INTERVAL=8'],
      ['drain_inspection', 'FREQ=WEEKLY;INTERVAL=13'],
      ['evaporator_inspection', 'FREQ=WEEKLY;INTERVAL=13'],
    ]);
  });

  it('takes units from the column’s name and a kitchen’s details from any one row', () => {
    const { units } = plan([
      [...HEAD, 'altitude_ft', 'charge_oz', 'cutout_psig', 'box_f', 'hot_day_air_c'],
      row('A', '', '16', '100', '32', ''),
      row('B', '1000', '', '', '', '40'),
    ]);
    expect(units[0]?.kitchen.values.altitudeM).toBeCloseTo(304.8, 9);
    expect(units[0]?.kitchen.values.hotDayAirK).toBeCloseTo(313.15, 9);
    expect(units[0]?.chargeKg).toBeCloseTo(0.45359237, 12);
    expect(units[0]?.cutoutPaGauge).toBeCloseTo(689475.729, 2);
    expect(units[0]?.boxSetK).toBeCloseTo(273.15, 9);
    expect(units[1]?.boxSetK).toBeNull();
  });

  it('takes weeks, rules, dates and none for tasks', () => {
    const { units, problems } = plan([
      [
        ...HEAD,
        'coil_cleaning_rule',
        'coil_cleaning_last_done',
        'drain_inspection_rule',
        'evaporator_inspection_rule',
        'evaporator_inspection_anchor',
        'evaporator_inspection_first_due',
        'coil_cleaning_locked',
      ],
      row('A', '6', '2026-02-01', 'none', 'FREQ=MONTHLY;BYMONTHDAY=1', 'calendar', '2026-03-01', 'yes'),
    ]);
    expect(problems).toEqual([]);
    expect(units[0]?.tasks.map((t) => [t.kindKey, t.dueOn, t.anchor, t.locked])).toEqual([
      ['coil_cleaning', '2026-03-15', 'last_completed', true],
      ['evaporator_inspection', '2026-03-01', 'calendar', false],
    ]);
  });

  it('reckons today in the kitchen’s own zone', () => {
    // 3 March 21:00 in Chicago, 4 March 14:00 in Auckland.
    const table = (zone: string) => [[...HEAD, 'time_zone', 'coil_cleaning_last_done'], row('A', zone, '2026-03-04')];
    expect(said(table('Pacific/Auckland'))).toEqual([]);
    expect(said(table('America/Chicago'))).toEqual(['2 coil_cleaning_last_done: Lies in the future.']);
  });
});

describe('a bad file', () => {
  it('names line and column of every bad cell at once', () => {
    expect(
      said([
        [...HEAD, 'charge_oz', 'time_zone', 'lat', 'head_control', 'contact_email', 'coil_cleaning_rule'],
        ['Ash', 'Ash One', 'A', 'fridge', 'lawn', 'R999', '4 psi', 'Chicagoland', '95', 'maybe', 'nobody', '0'],
        ['Ash', '', 'B', 'reach_in', 'line', 'R290', '0,5,5', '', '', '', '', 'FREQ=HOURLY'],
      ]).map((s) => s.replace(/: .*/, '')),
    ).toEqual([
      '2 kind',
      '2 placement',
      '2 refrigerant',
      '2 charge_oz',
      '2 time_zone',
      '2 lat',
      '2 head_control',
      '2 contact_email',
      '2 coil_cleaning_rule',
      '3 kitchen',
      '3 charge_oz',
      '3 coil_cleaning_rule',
    ]);
  });

  it('says in the column’s own unit what would be possible', () => {
    expect(said([[...HEAD, 'hot_day_air_f'], row('A', '999')])).toEqual(['2 hot_day_air_f: Is out of range: 32 to 140 °F is possible.']);
    expect(said([[...HEAD, 'altitude_ft'], row('A', '99999')])).toEqual(['2 altitude_ft: Is out of range: -1410 to 16400 ft is possible.']);
  });

  it('names duplicates within the file by the line they repeat', () => {
    expect(said([[...HEAD, 'tag'], row('Cooler', 'a-1'), row(' cooler ', 'A-2'), row('Other', 'A-1')])).toEqual([
      '3 unit: Line 2 names the same unit in this kitchen. Give each its own name, or remove one.',
      '4 tag: Line 2 has the same tag. A tag belongs to one unit.',
    ]);
  });

  it('names duplicates of what is on file', () => {
    const first = plan([HEAD, row('Cooler')]).kitchens[0];
    if (!first) throw new Error('no kitchen planned');
    const onFile: OnFile = {
      customers: new Map([['ash', { id: 'c', archived: false }]]),
      kitchens: new Map([[first.key, { ...KITCHEN, values: first.values, units: new Set(['cooler']) }]]),
      tags: new Set(['A-1']),
    };
    expect(said([[...HEAD, 'tag'], row('COOLER', 'A-1')], onFile)).toEqual([
      '2 tag: A unit on file has this tag already.',
      '2 unit: This kitchen has a unit of this name on file already. Remove the row, or name it apart.',
    ]);
  });

  it('names rows of one kitchen that contradict one another', () => {
    expect(said([[...HEAD, 'altitude_m'], row('A', '100'), row('B', '100'), row('C', '250')])).toEqual([
      '4 altitude_m: Line 2 says otherwise for the same kitchen. Make them agree, or fill it on one row only.',
    ]);
  });

  it.each([
    [[['name', 'place']], 'must hold the column names'],
    [[HEAD.slice(1), row('A').slice(1)], 'customer: This column is missing'],
    [[[...HEAD, 'altitude_ft', 'altitude_m'], row('A', '1', '1')], 'altitude_ft gives the same thing'],
    [[[...HEAD, 'placment'], row('A', '1')], 'If placement is meant'],
    [[HEAD], 'no rows'],
    [[], 'file is empty'],
    [[HEAD, row('A', 'spilled')], 'More values than columns'],
  ])('speaks of the header or the shape: %#', (table, expected) => expect(said(table as string[][]).join('\n')).toContain(expected));

  it('names what is wrong in the rows under a column whose name is nearly ours', () => {
    const { problems, units } = plan([[...HEAD, 'altitude_mm'], row('A', '100'), ['Ash', 'Ash One', 'B', 'reach_in', 'line', 'R9999', '']]);
    expect(problems).toMatchObject([
      { line: 1, column: 'altitude_mm', severity: 'error' },
      { line: 3, column: 'refrigerant', value: 'R9999', severity: 'error' },
    ]);
    expect(units).toHaveLength(1);
  });

  it('leaves out columns that are not ours and says so', () => {
    const { problems, units } = plan([[...HEAD, 'purchase_order'], row('A', '77')]);
    expect(problems).toMatchObject([{ line: 1, column: 'purchase_order', severity: 'note' }]);
    expect(units).toHaveLength(1);
  });

  it('keeps what is on file of a kitchen and says where the file differs', () => {
    const first = plan([[...HEAD, 'altitude_m'], row('Cooler', '100')]).kitchens[0];
    if (!first) throw new Error('no kitchen planned');
    const onFile: OnFile = {
      customers: new Map([['ash', { id: 'c', archived: false }]]),
      kitchens: new Map([[first.key, { ...KITCHEN, values: first.values, units: new Set<string>() }]]),
      tags: new Set(),
    };
    const { problems, kitchens } = plan([[...HEAD, 'altitude_m'], row('A', '200'), row('B', '200')], onFile);
    expect(problems).toMatchObject([{ line: 2, column: 'altitude_m', severity: 'note' }]);
    expect(kitchens[0]).toMatchObject({ kitchenId: 'k', values: { altitudeM: 100 } });
  });

  it('fills what is blank of a kitchen on file, and gives it a position that no person had set', () => {
    const first = plan([[...HEAD, 'lat', 'lng', 'contact_phone'], row('Cooler', '41', '-87', '')]).kitchens[0];
    if (!first) throw new Error('no kitchen planned');
    const said = (placedByHand: boolean) =>
      plan([[...HEAD, 'lat', 'lng', 'contact_phone'], row('A', '41.9', '-87.6', '312-555-0141')], {
        customers: new Map([['ash', { id: 'c', archived: false }]]),
        kitchens: new Map([[first.key, { ...KITCHEN, placedByHand, values: first.values, units: new Set<string>() }]]),
        tags: new Set(),
      });
    expect(said(false).kitchenUpdates).toEqual([
      { kitchenId: 'k', version: 1, name: 'Ash One', set: { lat: 41.9, lng: -87.6, contactPhone: '312-555-0141' } },
    ]);
    expect(said(true)).toMatchObject({
      kitchenUpdates: [{ set: { contactPhone: '312-555-0141' } }],
      problems: [{ column: 'lat' }, { column: 'lng' }],
    });
  });
});
