import { describe, expect, it } from 'vitest';
import { daysBetween, localDate } from '@/lib/core/calendar';
import { blankUnit } from '@/lib/core/equipment/unit-fields';
import { LIMITS, NAME_MAX, TEXT_MAX } from '@/lib/core/equipment/limits';
import { allColumns, columnsIn, emptyRow, kitchenKey, ON_FILE_POLICIES, planFleet, template, writeRow, type KnownUnit, type OnFile, type OnFilePolicy } from '@/lib/core/fleet-csv'; // prettier-ignore
import { updateOf } from '@/lib/core/fleet-csv/units-on-file';
import { TASK_KINDS } from '@/lib/core/tasks/kinds';

const OWN_KIND = { key: 'door_hinges', label: 'Door hinges', defaultWeeks: 6, minWeeks: 3, maxWeeks: 40 };
const kinds = [...TASK_KINDS, OWN_KIND];
const columns = allColumns(kinds);
const by = (header: string) => columns.find((c) => c.header === header) ?? expect.fail(`no column ${header}`);

/** What a cell is taken for: written out again, or what is wrong with it. */
const read = (header: string, text: string): string => {
  const row = emptyRow();
  const problem = by(header).take(text, row);
  return problem === null ? by(header).put(row) : `! ${problem}`;
};

describe('a cell', () => {
  it.each([
    // Names are one line, notes keep theirs; blanks around are none of it.
    ['customer', '  Golden Fork ', 'Golden Fork'],
    ['customer', 'Golden\nFork', 'Golden Fork'],
    ['notes', 'two\nlines ', 'two\nlines'],
    ['make', 'Holm', 'Holm'],
    // Numbers with a point, a minus however it is drawn, thousands apart.
    ['lat', '−41.5', '-41.5'],
    ['lat', '1e1', '10'],
    ['lng', '.5', '0.5'],
    ['altitude_m', '1 200', '1200'],
    ['altitude_ft', '100', '100'],
    ['charge_lb', '5', '5'],
    ['energy_price_per_kwh', '0.17', '0.17'],
    ['energy_price_per_kwh', '10', '10'],
    // One of a list by its key or its label, whatever the case and the dashes.
    ['kind', 'Reach-in', 'reach_in'],
    ['kind', 'REACH IN', 'reach_in'],
    ['kind', 'walk_in_freezer', 'walk_in_freezer'],
    ['placement', 'Back of house', 'back_of_house'],
    ['refrigerant', 'r-404a', 'R404A'],
    ['refrigerant', 'unknown', 'unknown'],
    ['tag', 'ab-1', 'AB-1'],
    ['roof_work', 'Y', 'yes'],
    ['roof_work', '0', 'no'],
    ['coil_cleaning_locked', 'x', 'yes'],
    ['preferred_weekday', 'tue', 'Tuesday'],
    ['preferred_weekday', 'MONDAY', 'Monday'],
    ['preferred_weekday', 'sund', 'Sunday'],
    ['service_hours', 'Mon-Fri 06:00-10:30', 'Mon-Fri 06:00-10:30'],
    ['service_hours', '06:00–10:30', 'Mon-Sun 06:00-10:30'],
    ['service_hours', '6am-2pm', 'Mon-Sun 06:00-14:00'],
    ['kind', 'REACH‑IN', 'reach_in'],
    ['lat', '41,5', '41.5'],
    ['altitude_ft', '1,400', '1400'],
    ['altitude_ft', '426.72 m', '1400'],
    ['box_f', '3', '3'],
    ['box_f', '3 °C', '37.4'],
    ['cutout_psig', '689.475729316836 kPa', '100'],
    ['charge_oz', '1,25 lb', '20'],
    ['coil_cleaning_last_done', '31.3.2026', '2026-03-31'],
    ['time_zone', 'America/Chicago', 'America/Chicago'],
    ['contact_email', 'petra@rye.example', 'petra@rye.example'],
    ['coil_cleaning_rule', '6', 'FREQ=WEEKLY;INTERVAL=6'],
    ['coil_cleaning_rule', '1', 'FREQ=WEEKLY;INTERVAL=1'],
    ['coil_cleaning_rule', '104', 'FREQ=WEEKLY;INTERVAL=104'],
    ['coil_cleaning_rule', 'None', 'none'],
    ['coil_cleaning_rule', 'FREQ=MONTHLY;BYMONTHDAY=1', 'FREQ=MONTHLY;BYMONTHDAY=1'],
    ['coil_cleaning_anchor', 'Last completed', 'last_completed'],
    ['coil_cleaning_anchor', 'calendar', 'calendar'],
    ['coil_cleaning_first_due', '2026-04-07', '2026-04-07'],
    ['door_hinges_rule', '6', 'FREQ=WEEKLY;INTERVAL=6'],
  ])('%s “%s” is %s', (header, text, out) => expect(read(header, text)).toBe(out)); // prettier-ignore

  it.each([
    ['customer', 'x'.repeat(NAME_MAX + 1), `${NAME_MAX + 1} characters; at most ${NAME_MAX} fit.`],
    ['notes', 'x'.repeat(TEXT_MAX + 1), `${TEXT_MAX + 1} characters; at most ${TEXT_MAX} fit.`],
    ['altitude_ft', '1,400,', 'Is not a number. Write the bare number; the column’s name already says ft. One with its own unit will do as well, like 3 m.'],
    ['lat', 'north', 'Is not a number. Write the bare number; the column’s name already says degrees.'],
    ['lat', '4.1.1', 'Is not a number. Write the bare number; the column’s name already says degrees.'],
    ['lat', '41 N', 'Is not a number. Write the bare number; the column’s name already says degrees.'],
    ['lat', '90.1', 'Is out of range: -90 to 90 degrees is possible.'],
    ['charge_oz', '-1', 'Is out of range: 0.177 to 17600 oz is possible.'],
    ['energy_price_per_kwh', '10.1', 'Is out of range: 0 to 10 per kWh is possible.'],
    ['coil_cleaning_anchor', 'whenever', 'Is not one of: last_completed, calendar.'],
    ['refrigerant', 'R999', 'Is not a refrigerant on our list. Write it like R404A; the list stands with the columns. Or unknown.'],
    ['tag', 'a', 'Tags take 2 to 40 letters, digits, dots, dashes and underscores.'],
    ['tag', 'a b', 'Tags take 2 to 40 letters, digits, dots, dashes and underscores.'],
    ['roof_work', 'maybe', 'Write yes or no; y, n, true, false, 1, 0 and x for yes will do as well.'],
    ['preferred_weekday', 'Tu', 'Is not a weekday. Write Monday or Mon.'],
    ['preferred_weekday', 'someday', 'Is not a weekday. Write Monday or Mon.'],
    ['time_zone', 'Chicagoland', 'Is not a time zone. Write it like America/Chicago.'],
    ['contact_email', 'petra@rye', 'Is not an e-mail address.'],
    ['contact_email', 'petra rye@x.example', 'Is not an e-mail address.'],
    ['contact_email', `${'x'.repeat(190)}@rye.example`, 'Is not an e-mail address.'],
    ['coil_cleaning_rule', '0', 'Weeks run from 1 to 104.'],
    ['coil_cleaning_rule', '105', 'Weeks run from 1 to 104.'],
    ['coil_cleaning_rule', 'FREQ=HOURLY', expect.stringMatching(/./)],
    ['coil_cleaning_rule', 'every moon', expect.stringMatching(/ Whole weeks will do as well, for instance 6\.$/)],
    ['coil_cleaning_last_done', '3.4.2026', 'Could be 2026-03-04 or 2026-04-03. Write year-month-day, for instance 2026-03-31.'],
    ['coil_cleaning_last_done', 'spring 2026', 'Is not a date. Write year-month-day, for instance 2026-03-31.'],
    ['coil_cleaning_last_done', '45367', 'Is not a date. Write year-month-day, for instance 2026-03-31.'],
    ['coil_cleaning_last_done', 'Mar 2026', 'Is not a date. Write year-month-day, for instance 2026-03-31.'],
    ['coil_cleaning_last_done', '31.2.2026', 'Is not a date. Write year-month-day, for instance 2026-03-31.'],
    ['box_f', 'cold', 'Is not a number. Write the bare number; the column’s name already says °F. One with its own unit will do as well, like 3 °C.'],
    ['box_f', '38 psi', 'Is not a number. Write the bare number; the column’s name already says °F. One with its own unit will do as well, like 3 °C.'],
    ['charge_oz', '20 floz', 'Is not a number. Write the bare number; the column’s name already says oz. One with its own unit will do as well, like 3 lb.'],
  ])('%s “%.20s”: %s', (header, text, problem) => {
    const row = emptyRow();
    expect(by(header).take(text, row)).toEqual(problem);
    // What could not be read is not there half.
    expect([row.names, row.kitchen, row.unit]).toEqual([{}, {}, {}]);
  }); // prettier-ignore

  it('fills what fits to the last letter, and the ends of every span', () => {
    expect(read('customer', 'x'.repeat(NAME_MAX))).toHaveLength(NAME_MAX);
    expect(read('notes', 'x'.repeat(TEXT_MAX))).toHaveLength(TEXT_MAX);
    for (const n of LIMITS.lat) expect(read('lat', String(n))).toBe(String(n));
    expect(read('contact_email', `${'x'.repeat(188)}@rye.example`)).toHaveLength(200);
    expect(read('service_hours', 'whenever')).toMatch(/^! ./);
  });
});

describe('the columns', () => {
  it('each say what they are for and have a name of their own; those of one thing carry their unit in it', () => {
    expect(new Set(columns.map((c) => c.header)).size).toBe(columns.length);
    for (const c of columns) {
      expect(c.header).toMatch(/^[a-z0-9_]+$/);
      expect(c.about.length, c.header).toBeGreaterThan(4);
      expect(c.about, c.header).toMatch(/^[A-Za-z].*[.]$/);
      expect(c.in !== undefined, c.header).toBe(columns.filter((o) => o.field === c.field).length > 1 || c.header === 'run_time_h');
    }
    expect(columns.filter((c) => c.required).map((c) => c.header)).toEqual(['customer', 'kitchen', 'unit', 'kind', 'placement', 'refrigerant']); // prettier-ignore
  });

  it('write what they read, and nothing where there is nothing', () => {
    const sample = template(kinds);
    const own = columnsIn({ temperature: 'F', pressure: 'psig', mass: 'oz' }, kinds);
    expect(sample[0]).toEqual(own.map((c) => c.header));
    for (const cells of sample.slice(1)) {
      const row = emptyRow();
      own.forEach((c, i) => cells[i] && expect(c.take(cells[i], row), c.header).toBeNull());
      const written = writeRow(row, own);
      const again = emptyRow();
      own.forEach((c, i) => written[i] && expect(c.take(written[i], again), c.header).toBeNull());
      expect(again).toEqual(row);
      expect(writeRow(again, own)).toEqual(written);
      // What stands in the template stands in what is written of it.
      own.forEach((c, i) => expect(written[i] === '', c.header).toBe(cells[i] === ''));
    }
    // Every column has an example somewhere, but for a few that need none.
    const shown = own.filter((_, i) => sample.slice(1).some((cells) => cells[i] !== '')).length;
    expect(shown).toBeGreaterThan(0.6 * own.length);
    for (const { put } of columns) expect(put(emptyRow())).toBe('');
  });

  it('of an export are in the reader’s units', () => {
    const metric = columnsIn({ temperature: 'C', pressure: 'bar', mass: 'g' }, kinds).map((c) => c.header);
    expect(metric).toEqual(expect.arrayContaining(['altitude_m', 'hot_day_air_c', 'charge_g', 'cutout_bar', 'nominal_cooling_w', 'air_over_room_k'])); // prettier-ignore
    expect(metric.filter((h) => /_(ft|f|oz|lb|kg|psig|btuh)$/.test(h))).toEqual([]);
  });
});

const HEAD = ['customer', 'kitchen', 'unit', 'kind', 'placement', 'refrigerant'];
const NOW = Date.UTC(2026, 2, 4, 18);
const TODAY = localDate('2026-03-04');
const nobody: OnFile = { customers: new Map(), kitchens: new Map(), tags: new Set() };
const plan = (table: string[][], over: { onFile?: OnFile; whereOnFile?: OnFilePolicy } = {}) =>
  planFleet(table.map((cells, i) => ({ line: i + 1, cells })), { columns, kinds, onFile: nobody, shopTimeZone: 'America/Chicago', now: NOW, ...over }); // prettier-ignore
const row = (unit: string, ...more: string[]) => ['Ash', 'Ash One', unit, 'reach_in', 'line', 'R290', ...more];
const said = (...args: Parameters<typeof plan>) => plan(...args).problems.map((p) => `${p.line} ${p.column}${p.severity === 'note' ? ' (note)' : ''}: ${p.message}`); // prettier-ignore

describe('the first line', () => {
  it('may have its names in any case, with dashes or blanks, and a mark of a spreadsheet before them', () => {
    const head = ['\uFEFFCustomer', ' KITCHEN ', 'Unit', 'kind', 'placement', 'Refrigerant', 'Time zone', 'contact-name', ''];
    const { units, problems } = plan([head, row('A', 'America/Denver', 'Petra', '')]);
    expect(problems).toEqual([]);
    expect(units[0]?.kitchen.values).toMatchObject({ timeZone: 'America/Denver', contactName: 'Petra' });
  });

  it('is told each name that is missing, nearly ours, given twice, or not ours', () => {
    expect(said([HEAD.slice(0, 4), ['Ash', 'Ash One', 'A', 'reach_in']])).toEqual([
      '1 placement: This column is missing and every row needs it.',
      '1 refrigerant: This column is missing and every row needs it.',
    ]);
    expect(plan([HEAD.slice(0, 4), ['Ash', 'Ash One', 'A', 'reach_in'], []])).toMatchObject({ rows: 2, units: [], kitchens: [], updates: [], kitchenUpdates: [], rowsOnFile: 0 }); // prettier-ignore
    expect(said([['a', 'b'], ['1', '2']])).toEqual([
      '1 a (note): Not one of our columns; it is left out.',
      '1 b (note): Not one of our columns; it is left out.',
      '1 : The first line must hold the column names; none of ours is there. At least customer, kitchen, unit, kind, placement, refrigerant.',
    ]); // prettier-ignore
    expect(said([[...HEAD, 'make', 'Make', 'modle', 'altitude_m', 'altitude_ft'], row('A', '', '', '', '', '')])).toEqual([
      '1 make: This column stands twice. Keep one.',
      '1 modle: No column has this name. If model is meant, write that.',
      '1 altitude_ft: altitude_m gives the same thing. Keep one of the two.',
    ]);
    // A slip is a letter or two, in a short name one, and in one of two letters none.
    const meant = (name: string) => said([[...HEAD, name], row('A', '')])[0]?.replace(/^1 \S+( \(note\))?: /, '');
    for (const [name, column] of [
      ['lon', null],
      ['lag', 'lat'],
      ['tagg', 'tag'],
      ['maek', null],
      ['mak', 'make'],
      ['id', null],
      ['no', null],
      ['size', null],
      ['seriall', 'serial'],
      ['refigerants', 'refrigerant'],
      ['adress', 'address'],
      ['adressxx', null],
    ] as const)
      expect(meant(name), name).toBe(
        column ? `No column has this name. If ${column} is meant, write that.` : 'Not one of our columns; it is left out.',
      );
    expect(said([])).toEqual(['1 : The file is empty. Its first line holds the column names.']);
    expect(said([HEAD])).toEqual(['2 : There are column names but no rows.']);
    expect(plan([]).rows).toBe(0);
  });

  it('of two columns of one thing only the first is read', () => {
    expect(plan([[...HEAD, 'make', 'make'], row('A', 'Holm', 'Other')]).units[0]?.make).toBe('Holm');
  });
});

describe('a row', () => {
  it('has lat and lng, or neither; a wrong one is said once', () => {
    const head = [...HEAD, 'lat', 'lng'];
    const both = 'lat and lng go together. Fill both or neither.';
    expect(said([head, row('A', '41', '')])).toEqual([`2 lng: ${both}`]);
    expect(said([head, row('A', '', '-87')])).toEqual([`2 lat: ${both}`]);
    expect(said([head, row('A', '', '')])).toEqual([]);
    expect(said([head, row('A', '41', '-87')])).toEqual([]);
    expect(said([head, row('A', 'north', '-87')])).toEqual(['2 lat: Is not a number. Write the bare number; the column’s name already says degrees.']); // prettier-ignore
    expect(said([head, row('A', '41', '200')])).toEqual(['2 lng: Is out of range: -180 to 180 degrees is possible.']);
  });

  it('may be shorter than the columns, and longer by blanks only', () => {
    expect(said([[...HEAD, 'make'], row('A')])).toEqual([]);
    expect(said([HEAD, row('A', '', '  ')])).toEqual([]);
    const { problems } = plan([HEAD, row('A', ' ', 'Mill Street', 'x'.repeat(99))]);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ line: 2, column: '', message: 'More values than columns. A comma inside a value needs quotes around the value.' }); // prettier-ignore
    expect(problems[0]?.value).toMatch(/^Mill Street, x{67}$/);
  });

  it('says where it lacks what every row needs, and is then no unit', () => {
    const { units, problems } = plan([HEAD, ['Ash', 'Ash One', ' ', 'reach_in', '', 'R290'], ['', '', 'B', 'reach_in', 'line', 'R290']]);
    expect(units).toEqual([]);
    expect(problems.map((p) => [p.line, p.column, p.value, p.message])).toEqual(
      [[2, 'unit'], [2, 'placement'], [3, 'customer'], [3, 'kitchen']].map((at) => [...at, '', 'Is empty and every row needs it.']),
    ); // prettier-ignore
  });

  it('shows of a long value its beginning', () => {
    expect(plan([[...HEAD, 'make'], row('A', 'm'.repeat(300))]).problems[0]?.value).toBe('m'.repeat(80));
  });

  it('has what is usual for its kind where it says nothing, and what it says where it does', () => {
    const [plain, told] = plan([[...HEAD, 'circuit', 'expansion'], row('A', '', ''), row('B', 'ports', 'valve')]).units;
    const { tag: _, ...usual } = blankUnit('reach_in');
    expect(plain).toMatchObject({ ...usual, name: 'A', placement: 'line', refrigerant: 'R290', line: 2 });
    expect(told).toMatchObject({ circuitAccess: 'ports', expansion: 'valve', line: 3 });
  });
});

describe('tasks of a row', () => {
  const task = (over: Record<string, string> = {}, key = 'coil_cleaning', base: Partial<Record<string, string>> = {}) => {
    const head = [...HEAD, 'preferred_weekday', 'condenser', ...Object.keys(over)];
    const cells = ['Ash', 'Ash One', 'A', base.kind ?? 'reach_in', base.placement ?? 'line', 'R290', base.weekday ?? '', base.condenser ?? '', ...Object.values(over)]; // prettier-ignore
    const { units, problems } = plan([head, cells]);
    return { task: units[0]?.tasks.find((t) => t.kindKey === key), tasks: units[0]?.tasks.map((t) => t.kindKey), problems: problems.map((p) => `${p.column}: ${p.message}`) }; // prettier-ignore
  };

  it('are those usual for its kind, at the weeks usual for its place, within the kind’s bounds', () => {
    expect(task({}, 'coil_cleaning', { placement: 'fryer' }).task).toMatchObject({ rule: 'FREQ=WEEKLY;INTERVAL=4', anchor: 'last_completed', locked: false, lastDoneOn: null, minWeeks: 1, maxWeeks: 52 }); // prettier-ignore
    expect(task({}, 'coil_cleaning', { placement: 'bar' }).task?.rule).toBe('FREQ=WEEKLY;INTERVAL=26');
    expect(task({}, 'drain_inspection', { placement: 'fryer' }).task).toMatchObject({ rule: 'FREQ=WEEKLY;INTERVAL=13', minWeeks: 2, maxWeeks: 26 }); // prettier-ignore
    expect(task({}, '', { kind: 'ice_machine' }).tasks).toEqual(['coil_cleaning', 'drain_inspection', 'ice_machine_cleaning']);
    // A kind of the shop's own only where the file gives it a rule.
    expect(task({ door_hinges_rule: '6' }, 'door_hinges').task).toMatchObject({
      rule: 'FREQ=WEEKLY;INTERVAL=6',
      minWeeks: 3,
      maxWeeks: 40,
    });
  });

  it('count from the last time where that is known: four weeks after 10 February are 10 March', () => {
    expect(task({ coil_cleaning_rule: '4', coil_cleaning_last_done: '2026-02-10' }).task).toMatchObject({ dueOn: '2026-03-10', lastDoneOn: '2026-02-10' }); // prettier-ignore
    expect(task({ coil_cleaning_rule: '4', coil_cleaning_first_due: '2026-05-01' }).task?.dueOn).toBe('2026-05-01');
    expect(task({ coil_cleaning_rule: '4', coil_cleaning_last_done: '2026-03-04' }).problems).toEqual([]);
    expect(task({ coil_cleaning_last_done: '2026-03-05' }).problems).toEqual(['coil_cleaning_last_done: Lies in the future.']);
  });

  it('else fall within one interval from today, a whole kitchen on one day, kitchens on different ones', () => {
    const kitchens = Array.from({ length: 60 }, (_, n) => `Ash ${n}`);
    const { units } = plan([HEAD, ...kitchens.flatMap((k) => ['A', 'B'].map((u) => ['Ash', k, u, 'reach_in', 'line', 'R290']))]);
    const days = units.map((u) => daysBetween(TODAY, u.tasks.find((t) => t.kindKey === 'coil_cleaning')?.dueOn ?? TODAY));
    for (const d of days) expect(d >= 0 && d < 8 * 7).toBe(true);
    for (let i = 0; i < days.length; i += 2) expect(days[i]).toBe(days[i + 1]);
    expect(new Set(days).size).toBeGreaterThan(25);
    expect(Math.max(...days) - Math.min(...days)).toBeGreaterThan(40);
  });

  it('fall on the weekday that the kitchen prefers', () => {
    const due = task({}, 'coil_cleaning', { weekday: 'Tuesday' }).task?.dueOn;
    expect(new Date(`${due}T12:00:00Z`).getUTCDay()).toBe(2);
    // A rule of its own keeps its own days.
    expect(task({ coil_cleaning_rule: '4', coil_cleaning_last_done: '2026-02-11' }, 'coil_cleaning', { weekday: 'Tuesday' }).task?.dueOn).toBe('2026-03-11'); // prettier-ignore
  });

  it('are not where the file says none, and must have a rule where it says anything else of one that is not usual', () => {
    expect(task({ coil_cleaning_rule: 'none', drain_inspection_rule: 'none' }).tasks).toEqual(['evaporator_inspection']);
    const must = ['door_hinges_rule: Is empty though other columns of this task are filled. Write its weeks.'];
    for (const [name, text] of [['anchor', 'calendar'], ['first_due', '2026-05-01'], ['last_done', '2026-02-01'], ['locked', 'yes'], ['locked', 'no']]) expect(task({ [`door_hinges_${name}`]: text ?? '' }).problems).toEqual(must); // prettier-ignore
    expect(task({ door_hinges_rule: 'none', door_hinges_locked: 'yes' }).problems).toEqual([]);
    expect(task({}).tasks).not.toContain('door_hinges');
  });

  it('of a unit that water cools are of its water side, by what is said of cleaning a coil', () => {
    const wet = (over: Record<string, string>) => task(over, 'water_side_check', { condenser: 'water_cooled' });
    expect(wet({}).tasks).toEqual(['drain_inspection', 'evaporator_inspection', 'water_side_check']);
    expect(wet({}).task?.rule).toBe('FREQ=WEEKLY;INTERVAL=26');
    expect(wet({ coil_cleaning_rule: '9', coil_cleaning_locked: 'yes' }).task).toMatchObject({ rule: 'FREQ=WEEKLY;INTERVAL=9', locked: true }); // prettier-ignore
    // Its own word goes before.
    expect(wet({ coil_cleaning_rule: '9', water_side_check_rule: '11' }).task?.rule).toBe('FREQ=WEEKLY;INTERVAL=11');
    expect(wet({ coil_cleaning_rule: 'none' }).tasks).toEqual(['drain_inspection', 'evaporator_inspection']);
    expect(task({ coil_cleaning_rule: '9' }, 'coil_cleaning').task?.rule).toBe('FREQ=WEEKLY;INTERVAL=9');
  });

  it('say what is wrong with a rule that has no day left', () => {
    const { problems, tasks } = task({ coil_cleaning_rule: 'FREQ=DAILY;UNTIL=20250101', coil_cleaning_first_due: '2026-05-01' });
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(/^coil_cleaning_rule: /);
    expect(tasks).toEqual(['drain_inspection', 'evaporator_inspection']);
  });
});

describe('a file beside what is on file', () => {
  const values = plan([[...HEAD, 'address', 'service_hours', 'altitude_m', 'contact_name', 'lat', 'lng'], row('A', '1 Mill St', 'Mon-Fri 06:00-10:30', '100', '', '41', '-87')]).kitchens[0]?.values ?? expect.fail('a kitchen'); // prettier-ignore
  const kitchen = { id: 'k', version: 4, archived: false, placedByHand: true, values, units: new Set(['cooler']) };
  const file = (over: Partial<typeof kitchen> = {}, customer = { id: 'c', archived: false }, units: KnownUnit[] = []): OnFile => ({ customers: new Map([['ash', customer]]), kitchens: new Map([[kitchenKey('Ash', 'Ash One'), { ...kitchen, ...over }]]), tags: new Set(['T-9']), units }); // prettier-ignore
  const HEAD2 = [...HEAD, 'address', 'service_hours', 'altitude_m', 'contact_name'];

  it('knows customer and kitchen by name, and makes what it does not know', () => {
    const { kitchens } = plan([HEAD, row('A'), ['ASH', 'Ash Two', 'B', 'reach_in', 'line', 'R290'], ['Elm', 'Elm', 'C', 'reach_in', 'line', 'R290']], { onFile: file() }); // prettier-ignore
    expect(kitchens.map((k) => [k.customer, k.name, k.customerId, k.kitchenId, k.line])).toEqual([
      ['Ash', 'Ash One', 'c', 'k', 2],
      ['ASH', 'Ash Two', 'c', null, 3],
      ['Elm', 'Elm', null, null, 4],
    ]);
    expect(kitchens[1]?.values).toMatchObject({ timeZone: 'America/Chicago', altitudeM: 0, lat: null, lng: null, serviceHours: [], hotDayAirK: 308.15, energyPricePerKwh: null, preferredWeekday: null, address: '', accessNotes: '', contactName: '', contactPhone: '', contactEmail: '' }); // prettier-ignore
  });

  it('puts nothing into what is out of use, and says so once for a kitchen', () => {
    const rows = [HEAD, row('A'), row('B')];
    expect(said(rows, { onFile: file({}, { id: 'c', archived: true }) })).toEqual(['2 customer: This customer is out of use. Put it back in use first, or use another name.']); // prettier-ignore
    expect(said(rows, { onFile: file({ archived: true }) })).toEqual(['2 kitchen: This kitchen is out of use. Put it back in use first, or use another name.']); // prettier-ignore
    expect(said(rows, { onFile: file() })).toEqual([]);
  });

  const other = [HEAD2, row('A', '2 Oak St', 'Sat 07:00-09:00', '250', 'Petra'), row('B', '2 Oak St', '', '', '')];
  it('where a kitchen differs: what is blank is filled, the rest is told once, or all goes over it, or none', () => {
    const stays = 'This kitchen is on file with another value, which stays. Change it on the kitchen’s page if the file is right.';
    const notes = ['address', 'service_hours', 'altitude_m'].map((c) => `2 ${c} (note): ${stays}`);
    expect(said(other, { onFile: file() })).toEqual(notes);
    expect(plan(other, { onFile: file() }).kitchenUpdates).toEqual([{ kitchenId: 'k', version: 4, name: 'Ash One', set: { contactName: 'Petra' } }]); // prettier-ignore
    expect(plan(other, { onFile: file(), whereOnFile: 'fill' }).kitchenUpdates[0]?.set).toEqual({ contactName: 'Petra' });
    const over = plan(other, { onFile: file(), whereOnFile: 'replace' });
    expect(over.problems).toEqual([]);
    expect(over.kitchenUpdates[0]?.set).toMatchObject({ address: '2 Oak St', altitudeM: 250, contactName: 'Petra', serviceHours: [{ weekday: 5 }] }); // prettier-ignore
    const left = plan(other, { onFile: file(), whereOnFile: 'leave' });
    expect(left.kitchenUpdates).toEqual([]);
    expect(left.problems.map((p) => p.column)).toEqual(['address', 'service_hours', 'altitude_m', 'contact_name']);
    // Told as it would be written.
    expect(left.problems.map((p) => p.value)).toEqual(['2 Oak St', 'Sat 07:00-09:00', '250', 'Petra']);
  });

  it('where it is the same, or only went through another unit, nothing is changed and nothing told', () => {
    const same = [[...HEAD, 'address', 'service_hours', 'altitude_ft'], row('A', '1 Mill St', 'Mon-Fri 06:00-10:30', String(100 / 0.3048))];
    expect(plan(same, { onFile: file(), whereOnFile: 'replace' })).toMatchObject({ problems: [], kitchenUpdates: [] });
  });

  it('a position that nobody set by hand gives way, another kitchen’s word does not', () => {
    const moved = [[...HEAD, 'lat', 'lng', 'address'], row('A', '42', '-88', '2 Oak St')];
    expect(plan(moved, { onFile: file({ placedByHand: false }) }).kitchenUpdates[0]?.set).toEqual({ lat: 42, lng: -88 });
    expect(plan(moved, { onFile: file() }).kitchenUpdates).toEqual([]);
    expect(plan(moved, { onFile: file({ placedByHand: false }), whereOnFile: 'leave' }).kitchenUpdates).toEqual([]);
  });

  it('rows that say different things of one kitchen are told apart, those that agree are not', () => {
    const rows = (a: string, b: string) => said([[...HEAD, 'service_hours', 'contact_name'], row('A', a, 'Petra'), row('B', '', 'Petra'), row('C', b, 'Otto')]); // prettier-ignore
    const differ = 'Line 2 says otherwise for the same kitchen. Make them agree, or fill it on one row only.';
    expect(rows('Sat 07:00-09:00', 'Saturday 7:00-9:00')).toEqual([`4 contact_name: ${differ}`]);
    expect(rows('Sat 07:00-09:00', 'Sun 07:00-09:00')).toEqual([`4 service_hours: ${differ}`, `4 contact_name: ${differ}`]);
    expect(rows('', 'Sun 07:00-09:00')).toEqual([`4 contact_name: ${differ}`]);
    // A row that says what was usual anyway, then one that differs.
    expect(said([[...HEAD, 'altitude_m'], row('A', '0'), row('B', '5')])).toEqual([`3 altitude_m: ${differ}`]);
  });

  it('tells names and tags that are taken, on file or by an earlier row', () => {
    expect(said([HEAD, row('Cooler')], { onFile: file() })).toEqual(['2 unit: This kitchen has a unit of this name on file already. Remove the row, or name it apart.']); // prettier-ignore
    expect(said([HEAD, row(' COOLER ')], { onFile: file({ units: new Set() }) })).toEqual([]);
    expect(said([HEAD, row('A'), row('a'), ['Ash', 'Ash Two', 'A', 'reach_in', 'line', 'R290']])).toEqual(['3 unit: Line 2 names the same unit in this kitchen. Give each its own name, or remove one.']); // prettier-ignore
    expect(said([[...HEAD, 'tag'], row('A', 't-9'), row('B', 'T-1'), row('C', 't-1'), row('D', ''), row('E', '')], { onFile: file() })).toEqual([
      '2 tag: A unit on file has this tag already.',
      '4 tag: Line 3 has the same tag. A tag belongs to one unit.',
    ]); // prettier-ignore
  });

  const cooler: KnownUnit = { id: 'u', version: 2, customer: 'Ash', kitchen: 'Ash One', values: { ...blankUnit('reach_in'), kind: 'reach_in', tag: 'T-9', name: 'Cooler', placement: 'line', refrigerant: 'R290', make: 'Holm' } }; // prettier-ignore
  it('of a unit it knows asks no more than is said, and takes what is said of its kitchen', () => {
    const table = [[...HEAD, 'tag', 'model', 'contact_name'], ['Ash', 'Ash One', '', '', '', '', 'T-9', 'M4', 'Petra'], ['', '', '', 'boat', '', '', 't-9', '', '']]; // prettier-ignore
    const known = plan(table, { onFile: file({}, undefined, [cooler]), whereOnFile: 'fill' });
    expect(known).toMatchObject({ units: [], kitchens: [], rows: 2, rowsOnFile: 2, kitchenUpdates: [{ set: { contactName: 'Petra' } }], updates: [{ unitId: 'u', line: 2, set: { model: 'M4' } }] }); // prettier-ignore
    // What it does say wrongly is told.
    expect(known.problems.map((p) => [p.line, p.column, p.value])).toEqual([[3, 'kind', 'boat']]);
    // Without leave to be about units on file, rows are new units.
    expect(plan(table, { onFile: file({}, undefined, [cooler]) })).toMatchObject({ rowsOnFile: 0, updates: [] });
  });

  it('a known unit in a kitchen that is not on file under that name changes no kitchen', () => {
    const table = [
      [...HEAD, 'tag', 'contact_name'],
      ['Elm', 'Elm One', '', '', '', '', 'T-9', 'Petra'],
    ];
    expect(plan(table, { onFile: file({}, undefined, [cooler]), whereOnFile: 'replace' })).toMatchObject({ kitchenUpdates: [], kitchens: [], problems: [], rowsOnFile: 1 }); // prettier-ignore
  });

  it('changes of a unit only what differs, to a millionth', () => {
    const heavy: KnownUnit = { ...cooler, values: { ...cooler.values, chargeKg: 100, roofWork: true } };
    const set = (unit: object, how: OnFilePolicy) => updateOf(heavy, { ...emptyRow(), unit }, how, 2)?.set ?? null;
    expect(ON_FILE_POLICIES.map((how) => set({ chargeKg: 100.00005 }, how))).toEqual([null, null, null]);
    expect(set({ chargeKg: 100.001 }, 'replace')).toEqual({ chargeKg: 100.001 });
    expect(set({ chargeKg: 100.001 }, 'fill')).toBeNull();
    expect(set({ roofWork: false }, 'replace')).toEqual({ roofWork: false });
    // Below one it is a millionth of one.
    expect(updateOf({ ...heavy, values: { ...heavy.values, chargeKg: 0.01 } }, { ...emptyRow(), unit: { chargeKg: 0.0100005 } }, 'replace', 2)).toBeNull(); // prettier-ignore
  });
});
