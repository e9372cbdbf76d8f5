import { describe, expect, it } from 'vitest';
import { csvColumn, describe as described, describedAsText, jsonColumn, LEFT_OUT_COLUMNS, LEFT_OUT_MODELS, modelsOf, PICTURES, whyLeftOut } from '@/lib/core/archive'; // prettier-ignore
import { meaningOf } from '@/lib/core/archive/meaning';

const bare = { comment: '', pointsTo: null, members: null, picture: false };
const meaning = (name: string, over: Partial<Parameters<typeof meaningOf>[0]> = {}) => meaningOf({ name, ...bare, ...over });

describe('what stands in a column', () => {
  it.each([
    ['headPaGauge', 'Head. In pascal over the air around.'],
    ['lostPa', 'Lost. In pascal.'],
    ['labourPerHour', 'Labour per hour. In shop’s currency per hour.'],
    ['costPerKm', 'Cost per km. In shop’s currency per kilometre.'],
    ['energyPricePerKwh', 'Energy price per kwh. In shop’s currency per kilowatt-hour.'],
    ['chargeKg', 'Charge. In kilogram.'],
    ['speedKmh', 'Speed. In kilometre per hour.'],
    ['priceCents', 'Price cents. In hundredths of the currency.'],
    ['minutes', 'Minutes. In minutes.'],
    ['steadyMinutes', 'Steady minutes. In minutes.'],
    ['everyWeeks', 'Every weeks. In weeks.'],
    ['dueDays', 'Due days. In days.'],
    ['warrantyMonths', 'Warranty months. In months.'],
    ['boxSetK', 'Box set. In kelvin.'],
    ['nominalCoolingW', 'Nominal cooling. In watt.'],
    ['altitudeM', 'Altitude. In metre.'],
    ['ampsA', 'Amps. In ampere.'],
    ['runHoursPerDay', 'Run hours per day.'],
    ['minutesOfLabour', 'Minutes of labour.'],
    ['daysOff', 'Days off.'],
    ['monthsBefore', 'Months before.'],
    ['paidKgNote', 'Paid kg note.'],
    ['id', 'Its own name, never used twice.'],
    ['version', 'Counts its changes.'],
    ['createdAt', 'When it came on file.'],
    ['updatedAt', 'When it last changed.'],
    ['archivedAt', 'When it was taken out of use; empty while it is on file.'],
    ['at', 'When it happened.'],
    ['by', 'Who did it.'],
    ['notes', 'What somebody wrote beside it.'],
    ['reason', 'Why, in words.'],
    ['sort', 'Its place in lists.'],
    ['label', 'What it is called.'],
    ['active', 'Whether it is in use.'],
    ['lat', 'Degrees north.'],
    ['lng', 'Degrees east.'],
  ])('%s: %s', (name, words) => {
    expect(meaning(name)).toBe(words);
  });

  it('is what the schema says where it says something, with a full stop and no unit twice', () => {
    expect(meaning('chargeKg', { comment: 'full charge, kilogram' })).toBe('Full charge, kilogram.');
    expect(meaning('chargeKg', { comment: 'Full charge?' })).toBe('Full charge? In kilogram.');
    expect(meaning('note', { comment: 'Mind the step! And more' })).toBe('Mind the step! And more.');
  });

  it('tells its picture, what it may be and where it points', () => {
    expect(meaning('bytes', { picture: true })).toBe('Bytes. The file of this name in the archive.');
    expect(meaning('state', { members: ['open', 'done'] })).toBe('State. One of: open, done.');
    expect(meaning('unitId', { pointsTo: 'Unit' })).toBe('Which Unit it belongs to. Points to id of Unit.');
  });
});

const SCHEMA = `
generator client {
  provider = "x"
}

/// A door that
///is kept shut.
model Door {
  /// Who painted it.
  paintedBy String
  /// Lost: an empty line parts it.

  width Int @db.Integer

  @@index([width])
}

model Lock {
  id String @id
}
`;
const column = { nullable: false, isEnum: false, pointsTo: null };

describe('a schema in words', () => {
  it('has its models and columns in order, with what stands right above them', () => {
    expect(modelsOf(SCHEMA)).toEqual([
      { name: 'Door', comment: 'A door that is kept shut.', columns: [{ name: 'paintedBy', type: 'String', comment: 'Who painted it.' }, { name: 'width', type: 'Int', comment: '' }] }, // prettier-ignore
      { name: 'Lock', comment: '', columns: [{ name: 'id', type: 'String', comment: '' }] },
    ]);
    expect(modelsOf('')).toEqual([]);
  });

  it('describes tables in that order, and those it does not know at the end', () => {
    const tables = described(
      SCHEMA,
      [
        { name: 'OddThing', columns: [] },
        { name: 'Lock', columns: [{ ...column, name: 'keys', type: '"Key"[]', isEnum: true }] },
        { name: 'PasswordLink', columns: [] },
        { name: 'Door', columns: [{ ...column, name: 'paintedBy', type: 'text', nullable: true }, { ...column, name: 'apiKey', type: 'text' }] }, // prettier-ignore
      ],
      new Map([['Key', ['brass', 'a|b']]]),
    );
    expect(tables.map((t) => [t.table, t.meaning])).toEqual([
      ['Door', 'A door that is kept shut.'],
      ['Lock', 'Lock.'],
      ['OddThing', 'Odd thing.'],
      ['PasswordLink', 'Password link.'],
    ]);
    expect(tables[0]?.columns).toMatchObject([
      { column: 'paintedBy', type: 'text', mayBeEmpty: true, meaning: 'Who painted it.', leftOut: null },
      { column: 'apiKey', leftOut: 'Its name sounds like a secret, and nobody has said that it is none.' },
    ]);
    expect(tables[1]?.columns).toMatchObject([{ type: 'Key[]', mayBeEmpty: false, meaning: 'Keys. One of: brass, a|b.' }]);

    const text = describedAsText(tables, 'Larkspur', '2026-11-27').split('\n');
    expect(text[0]).toBe('# Everything of Larkspur, as of 2026-11-27');
    const from = text.indexOf('## Door');
    expect(text.slice(from, text.indexOf('## OddThing'))).toEqual([
      '## Door', '', 'A door that is kept shut.', '', '| column | type | may be empty | meaning |', '|---|---|---|---|',
      '| paintedBy | text | yes | Who painted it. |', '| apiKey | left out | | Its name sounds like a secret, and nobody has said that it is none. |', '',
      '## Lock', '', 'Lock.', '', '| column | type | may be empty | meaning |', '|---|---|---|---|', '| keys | Key[] | no | Keys. One of: brass, a\\|b. |', '',
    ]); // prettier-ignore
    expect(text.slice(text.indexOf('# Left out'))).toEqual([
      '# Left out', '', `- **PasswordLink**: ${LEFT_OUT_MODELS.PasswordLink}`,
      '- Long random parts of addresses in letters that were sent: they let their reader in.', '',
    ]); // prettier-ignore
    expect(text).not.toContain('## PasswordLink');
  });
});

describe('what leaves and what does not', () => {
  it('has a reason in a sentence for each thing that is left out', () => {
    for (const why of [...Object.values(LEFT_OUT_MODELS), ...Object.values(LEFT_OUT_COLUMNS)]) expect(why).toMatch(/^[A-Z].{15,}\.$/);
    expect(whyLeftOut('User', 'passwordHash')).toBe(LEFT_OUT_COLUMNS['User.passwordHash']);
    expect(['hash', 'linkToken', 'ourSecret', 'oldPassword', 'spareCodes', 'secondStep'].map((c) => whyLeftOut('Any', c) !== null)).not.toContain(false); // prettier-ignore
    expect([whyLeftOut('KeptPicture', 'hash'), whyLeftOut('Unit', 'name')]).toEqual([null, null]);
  });

  it('is written as itself, as the name of its file, or without what lets its reader in', () => {
    const of = (model: string, name: string, type = 'text', isArray = false) => [jsonColumn(model, { name, type, isArray }), csvColumn(model, { name, type, isArray })]; // prettier-ignore
    expect(of('User', 'passwordHash')).toEqual([null, null]);
    expect(of('Unit', 'chargeKg', 'double precision')).toEqual(['"chargeKg"', '"chargeKg"']);
    expect(of('Unit', 'o"dd', 'integer')).toEqual(['"o""dd"', '"o""dd"']);
    expect(of('Unit', 'roofWork', 'boolean')).toEqual(['"roofWork"', '"roofWork"::text AS "roofWork"']);
    expect(of('Unit', 'createdAt', 'timestamp(3) with time zone')[1]).toBe(`to_json("createdAt") #>> '{}' AS "createdAt"`);
    expect(of('User', 'skills', 'text', true)[1]).toBe('to_json("skills")::text AS "skills"');
    const [letter, inCsv] = of('OutboxMessage', 'text');
    expect([letter, inCsv]).toEqual([expect.stringMatching(/^regexp_replace\("text", .*left out.* AS "text"$/), letter]);
    const [file, name] = of('Visit', 'signaturePng', 'bytea');
    expect([file, name]).toEqual([`CASE WHEN "signaturePng" IS NULL THEN NULL ELSE ${PICTURES['Visit.signaturePng']} END AS "signaturePng"`, file]); // prettier-ignore
    expect(of('Unit', 'notes')[1]).toMatch(/^CASE WHEN "notes" ~ .* THEN '''' \|\| "notes" ELSE "notes" END AS "notes"$/);
  });
});
