import { describe, expect, it } from 'vitest';
import { bookedMinutes, JOB_SOURCE_LABEL, JOB_STATE_LABEL, JOB_STATES, JOB_URGENCY_LABEL, JOB_WAIT_LABEL, listsOf, QUOTE_LINE_LABEL, quotedMinutes, quoteLineWords, quoteSums, readParts, soonOf, STEP_INFO, stepsFrom, urgencySaid, waitsFor, type JobState, type QuoteLine } from '@/lib/core/jobs'; // prettier-ignore
import { isBookable } from '@/lib/core/jobs/states';

const stand = (state: JobState, needsQuote = false, partsWanted = false) => ({ state, needsQuote, partsWanted });

describe('what the office can say of a job', () => {
  it.each([
    ['asked for', stand('asked'), ['looked_at', 'quote_wanted', 'part_wanted', 'done', 'declined']],
    ['asked for with a quote first', stand('asked', true), ['looked_at', 'agreed', 'done', 'declined']],
    ['asked for, a part known', stand('asked', false, true), ['looked_at', 'quote_wanted', 'done', 'declined']],
    ['looked at', stand('looked_at'), ['quote_wanted', 'agreed', 'part_wanted', 'done', 'declined']],
    ['looked at, a quote first', stand('looked_at', true), ['agreed', 'done', 'declined']],
    ['quoted', stand('quoted', true), ['agreed', 'declined']],
    ['agreed', stand('agreed'), ['part_wanted', 'done', 'declined']],
    ['agreed, a part wanted', stand('agreed', false, true), ['part_ordered', 'part_here', 'done', 'declined']],
    ['its part ordered', stand('part_ordered', false, true), ['part_here', 'done', 'declined']],
    ['booked', stand('booked'), ['done', 'declined']],
    ['done', stand('done'), []],
    ['declined', stand('declined'), ['again']],
  ])('of one %s', (_, of, steps) => {
    expect(stepsFrom(of)).toEqual(steps);
  });

  it('changes what it waits for: a quote that is wanted, a part, the part that came', () => {
    const after = (of: ReturnType<typeof stand>, step: keyof typeof STEP_INFO) => {
      const { to, change } = STEP_INFO[step];
      return waitsFor({ ...of, state: to ?? of.state, ...change });
    };
    expect(after(stand('asked'), 'quote_wanted')).toBe('quote');
    expect(after(stand('asked'), 'looked_at')).toBe('office');
    expect(after(stand('asked', true), 'agreed')).toBe('booking');
    expect(after(stand('agreed'), 'part_wanted')).toBe('part');
    expect(after(stand('agreed', false, true), 'part_ordered')).toBe('part');
    expect(after(stand('part_ordered', false, true), 'part_here')).toBe('booking');
    expect(after(stand('declined'), 'again')).toBe('booking');
    expect(after(stand('booked'), 'done')).toBeNull();
    expect(waitsFor(stand('booked'))).toBe('visit');
    expect(waitsFor(stand('looked_at', true))).toBe('quote');
  });

  it('can be booked while it is open and no price is waited for', () => {
    expect(JOB_STATES.filter((state) => isBookable({ state }))).toEqual(['asked', 'looked_at', 'agreed', 'part_ordered', 'booked']);
  });

  it('reads as an office says it', () => {
    expect(Object.entries(STEP_INFO).map(([step, { label, why }]) => [step, label, why])).toEqual([
      ['looked_at', 'It was looked at', undefined],
      ['quote_wanted', 'A quote first', undefined],
      ['agreed', 'Agreed, do it', undefined],
      ['part_wanted', 'A part is needed', undefined],
      ['part_ordered', 'Part ordered', undefined],
      ['part_here', 'Part is here', undefined],
      ['done', 'Done', undefined],
      ['declined', 'Declined', 'Say who declined it, and why.'],
      ['again', 'Asked for again', undefined],
    ]);
    for (const labels of [JOB_STATE_LABEL, JOB_WAIT_LABEL, JOB_SOURCE_LABEL, JOB_URGENCY_LABEL, QUOTE_LINE_LABEL]) {
      const words = Object.values(labels);
      expect(new Set(words).size).toBe(words.length);
      for (const word of words) expect(word).toMatch(/^[A-Z]\w*/);
    }
  });

  it('keeps how soon it is wanted: soon is within the week, and today is soon', () => {
    expect((['now', 'soon', 'next', 'quote'] as const).map(soonOf)).toEqual([
      { urgency: 'now', needsQuote: false },
      { urgency: 'week', needsQuote: false },
      { urgency: 'next_visit', needsQuote: false },
      { urgency: 'next_visit', needsQuote: true },
    ]);
    const said = (urgency: 'now' | 'today' | 'week' | 'next_visit') => urgencySaid({ urgency, needsQuote: false });
    expect((['now', 'today', 'week', 'next_visit'] as const).map(said)).toEqual(['now', 'soon', 'soon', 'next']);
  });

  it('shows no list that nothing waits in', () => {
    const job = { ...stand('quoted'), urgency: 'week', dueOn: null, number: 1 } as const;
    expect(listsOf([job])).toEqual([{ wait: 'customer', jobs: [job] }]);
    expect(listsOf([])).toEqual([]);
  });
});

describe('the sums of a quote', () => {
  const line = (over: Partial<QuoteLine>): QuoteLine => ({ kind: 'labour', what: '', quantity: 1, unit: 'h', priceCents: 100, taxed: true, ...over }); // prettier-ignore

  it('round half a cent away from zero, and tax what is taxed alone', () => {
    expect(quoteSums([line({ quantity: 0.5, priceCents: 101 })], 0)).toEqual({ lines: [51], netCents: 51, taxCents: 0, totalCents: 51 });
    expect(quoteSums([line({}), line({ taxed: false })], 100).taxCents).toBe(100);
    expect(quoteSums([line({})], 0.4).taxCents).toBe(0);
    expect(quoteSums([], 0).totalCents).toBe(0);
    expect(quoteSums([line({ quantity: 0 }), line({ priceCents: 0 })], 10).totalCents).toBe(0);
    expect(() => quoteSums([line({ quantity: Infinity })], 10)).toThrow(RangeError);
    expect(() => quoteSums([], -1)).toThrow('Tax is a percentage from 0 to 100.');
    expect(() => quoteSums([line({ priceCents: -1 })], 10)).toThrow('A quantity and a price are zero or more.');
  });

  it.each(['h', 'H', 'hr', 'hrs.', 'hour', 'hours', ' h '])('read %j as hours', (unit) => {
    expect(quotedMinutes([line({ unit })])).toBe(60);
  });
  it.each(['min', 'mins', 'minute', 'Minutes', 'min.'])('read %j as minutes', (unit) => {
    expect(quotedMinutes([line({ unit, quantity: 31 })])).toBe(35);
  });
  it.each(['months', 'day', 'hp', 'lb', '1 h', 'hx', 'admin', 'mina'])('read no time out of %j', (unit) => {
    expect(quotedMinutes([line({ unit })])).toBeNull();
  });

  it('book no less than ten minutes, no more than a day’s work, and an hour where nobody said', () => {
    expect([0.05, 1.5, 40].map((quantity) => bookedMinutes([line({ quantity })]))).toEqual([10, 90, 720]);
    expect(bookedMinutes([])).toBe(60);
  });

  it('name a line once', () => {
    expect(quoteLineWords('part', 'Part', 'part ')).toBe('Part');
    expect(quoteLineWords('labour', 'Mano de obra', 'MANO DE OBRA')).toBe('Mano de obra');
    expect(quoteLineWords('trip', 'Trip', 'Two ways')).toBe('Trip: Two ways');
  });
});

describe('a line of a file of parts', () => {
  const HEAD = ['number', 'name', 'price', 'in van', 'in shop', 'warranty months'];
  const read = (over: Partial<Record<string, string>>) => {
    const good: Record<string, string> = { number: 'FM-9', name: 'Fan motor', price: '64.95', 'in van': '1', 'in shop': '2', 'warranty months': '12' }; // prettier-ignore
    return readParts([{ line: 1, cells: HEAD }, { line: 2, cells: HEAD.map((h) => over[h] ?? good[h] ?? '') }]); // prettier-ignore
  };
  const told = (over: Partial<Record<string, string>>) => read(over).problems.map((p) => p.message);

  it('is taken with all it says', () => {
    expect(read({}).rows).toEqual([
      { number: 'FM-9', name: 'Fan motor', priceCents: 6495, inVan: 1, inShop: 2, warrantyMonths: 12, vans: [] },
    ]);
    expect(read({ 'warranty months': '', 'in van': '' }).rows[0]).toMatchObject({ warrantyMonths: null, inVan: 0 });
    expect(read({ number: ' FM-9 ', name: ' Fan ' }).rows[0]).toMatchObject({ number: 'FM-9', name: 'Fan' });
  });

  it('leaves unsaid what has no column, which is not the same as none', () => {
    const [row] = readParts([{ line: 1, cells: ['number', 'name', 'price'] }, { line: 2, cells: ['A', 'B', '1'] }]).rows; // prettier-ignore
    expect(row).toEqual({ number: 'A', name: 'B', priceCents: 100, vans: [] });
  });

  it('may end early, where the cells that are missing count as empty', () => {
    const short = readParts([{ line: 1, cells: HEAD }, { line: 2, cells: ['A', 'B', '1'] }]); // prettier-ignore
    expect(short.rows[0]).toMatchObject({ inVan: 0, inShop: 0, warrantyMonths: null });
    const none = readParts([{ line: 1, cells: HEAD }, { line: 2, cells: [] }]); // prettier-ignore
    expect(none.problems.map((p) => [p.line, p.message])).toEqual([
      [2, 'Every part has a number of at most 60 characters.'],
      [2, 'Every part has a name of at most 200 characters.'],
      [2, '“” is not a price like 64.95.'],
    ]);
  });

  it.each([
    ['64.95', 6495],
    ['64,9', 6490],
    ['84', 8400],
    ['0', 0],
    ['$ 12.50', 1250],
    ['€3', 300],
    ['£3.05', 305],
    ['1000000', 100_000_000],
  ])('a price of %s is %d cents', (price, priceCents) => {
    expect(read({ price }).rows[0]?.priceCents).toBe(priceCents);
  });
  it.each(['', 'dear', '1.234', '-1', '1.', '1000000.01', '12345678', '1 2', '3 $', '$$3', 'x3', '3x'])('%j is no price', (price) => {
    expect(told({ price })).toEqual([`“${price}” is not a price like 64.95.`]);
  });

  it.each(['-1', '1.5', '100001', '1234567', 'two', 'x1', '1x'])('%j is no number of pieces, nor of months', (text) => {
    expect(told({ 'in shop': text })).toEqual([`“${text}” is not a whole number of pieces.`]);
    expect(told({ 'warranty months': text })).toEqual([`“${text}” is not a whole number of months.`]);
  });

  it('has a number and a name of the lengths that are kept', () => {
    expect(told({ number: 'n'.repeat(60), name: 'n'.repeat(200), 'in van': '100000' })).toEqual([]);
    expect(told({ number: 'n'.repeat(61) })).toEqual(['Every part has a number of at most 60 characters.']);
    expect(told({ name: 'n'.repeat(201) })).toEqual(['Every part has a name of at most 200 characters.']);
  });

  it('is told by the line of the file it stands on, as are columns that are missing or nobody’s', () => {
    const twice = readParts([{ line: 3, cells: HEAD }, { line: 4, cells: ['A', 'B', '1'] }, { line: 7, cells: ['A', 'C', '2'] }]); // prettier-ignore
    expect(twice).toEqual({ rows: [], problems: [{ line: 7, column: 'number', message: '“A” stands here twice.' }] });
    expect(readParts([]).problems).toEqual(['number', 'name', 'price'].map((column) => ({ line: 1, column, message: 'This column is missing.' }))); // prettier-ignore
    const van = readParts([{ line: 3, cells: ['number', 'name', 'price', 'van of  Tova Lind '] }, { line: 4, cells: ['A', 'B', '1'] }], [{ id: 't', name: 'Tova Lind' }]); // prettier-ignore
    expect(van.rows[0]?.vans).toEqual([{ technicianId: 't', pieces: 0 }]);
    expect(readParts([{ line: 3, cells: ['number', 'name', 'price', 'van of x'] }]).problems).toEqual([{ line: 3, column: 'van of x', message: 'No technician is called so.' }]); // prettier-ignore
  });
});
