import { describe, expect, it } from 'vitest';
import { LIMITS, TAG_FORM, within } from '@/lib/core/equipment/limits';
import { blankUnit, UNIT_FIELDS, UNIT_KEYS, unitField, usualBuild } from '@/lib/core/equipment/unit-fields';
import { fieldWords, unitFacts } from '@/lib/core/equipment/unit-words';
import { keysOf } from '@/lib/core/typed/closed-set';

const US = { temperature: 'F', pressure: 'psig', mass: 'oz' } as const;
const METRIC = { temperature: 'C', pressure: 'bar', mass: 'g' } as const;
const said = (key: keyof typeof UNIT_FIELDS, value: unknown) => fieldWords(unitField(key), value, US);

describe('what a unit may be', () => {
  it.each(UNIT_KEYS)('%s has its words, and a choice a word of its own for each value, which the file’s heading explains', (key) => {
    const field = unitField(key);
    expect([field.label, field.csv.header, field.csv.about, field.hint ?? 'none'].map((t) => t.trim().length > 2)).toEqual([
      true,
      true,
      true,
      true,
    ]);
    if (field.type !== 'choice') return;
    const words = Object.values(field.labels);
    expect(new Set(words).size).toBe(words.length);
    for (const [value, word] of Object.entries(field.labels)) {
      expect(word).toMatch(/^[A-Z].{2,}/);
      if (field.empty !== 'usual' || key !== 'condenserKind') expect(field.csv.about).toContain(value);
    }
  });

  it('leaves nothing out of the words it has for where a unit stands and what it is', () => {
    expect(Object.entries(UNIT_FIELDS.placement.labels).slice(0, 4)).toEqual([
      ['fryer', 'Beside fryer'],
      ['charbroiler', 'Beside charbroiler'],
      ['wok', 'Beside wok'],
      ['griddle', 'Under or beside griddle'],
    ]);
    expect(keysOf(UNIT_FIELDS.thermometerClass.labels)).toEqual(['pt_a', 'pt_b', 'tc_1', 'tc_2']);
  });

  it('asks for a name and leaves a note room for lines', () => {
    expect(UNIT_FIELDS.name).toMatchObject({ required: true, long: false });
    expect(UNIT_FIELDS.make).toMatchObject({ required: false, long: false });
    expect(UNIT_FIELDS.notes).toMatchObject({ required: false, long: true });
  });

  it('must be told what nobody can guess, guesses how a kind is built, and leaves unknown what it cannot', () => {
    const empty = (of: string) => UNIT_KEYS.filter((key) => unitField(key).type === 'choice' && 'empty' in UNIT_FIELDS[key] && UNIT_FIELDS[key].empty === of); // prettier-ignore
    expect(empty('required')).toEqual(['kind', 'placement']);
    expect(empty('usual')).toEqual(['application', 'expansion', 'circuitAccess', 'condenserKind']);
    expect(empty('unknown')).toEqual(['airProfile', 'thermometerClass']);
  });
});

describe('how a kind is usually built', () => {
  const plug = { application: 'medium', expansion: 'capillary', circuitAccess: 'sealed', condenserKind: 'fin_and_tube' };
  const split = { ...plug, expansion: 'valve', circuitAccess: 'ports' };
  it.each([
    ['reach_in', plug],
    ['undercounter', plug],
    ['drawer_base', plug],
    ['prep_table', plug],
    ['display', plug],
    ['walk_in_cooler', split],
    ['walk_in_freezer', { ...split, application: 'low' }],
    ['ice_machine', { ...split, application: 'low' }],
    ['remote_condensing_unit', split],
  ] as const)('%s, in a form and where nothing is said', (kind, usual) => {
    expect(usualBuild(kind)).toEqual(usual);
    expect(blankUnit(kind)).toMatchObject(usual);
  });

  it('says nothing else of a unit', () => {
    const { application: _, expansion: __, circuitAccess: ___, condenserKind: ____, ...rest } = blankUnit('reach_in');
    expect(rest).toEqual({
      tag: '', chargeKg: null, cutoutPaGauge: null, boxSetK: null, headControl: null, nominalCoolingW: null, runHoursPerDay: null,
      airOverRoomK: null, airProfile: null, thermometerClass: null, roofWork: false, make: '', model: '', serial: '', notes: '',
    }); // prettier-ignore
  });
});

describe('a field in words', () => {
  it.each([
    ['kind', 'walk_in_cooler', 'Walk-in cooler'],
    ['kind', 'of_another_day', 'of_another_day'],
    ['kind', 'toString', 'toString'],
    ['kind', 7, null],
    ['kind', null, ''],
    ['kind', undefined, ''],
    ['chargeKg', 0.45359237, '16 oz'],
    ['chargeKg', 'a lot', null],
    ['boxSetK', 275, '35.3 °F'],
    ['boxSetK', 250, '−9.67 °F'],
    ['roofWork', true, 'By roof or ladder'],
    ['roofWork', false, ''],
    ['roofWork', 'yes', null],
    ['headControl', true, 'Held up in cold air'],
    ['headControl', false, 'Not held up'],
    ['headControl', 1, null],
    ['refrigerant', 'R404A', 'R-404A'],
    ['refrigerant', 404, null],
    ['notes', '  Hatch behind the bar ', 'Hatch behind the bar'],
    ['notes', 12, null],
  ] as const)('%s of %j: %j', (key, value, words) => {
    expect(said(key, value)).toBe(words);
  });

  it('is left out of the facts where a page says it in its head, and where nothing is on file', () => {
    const unit = { name: 'Walk-in', make: 'Holm', notes: ' ', headControl: null };
    expect(unitFacts(unit, METRIC, ['name'])).toEqual([
      ['High-pressure cut-out', 'Not on file'],
      ['Head pressure held up in cold air', 'Not known'],
      ['Nominal cooling', 'Not on file'],
      ['Runs a day', 'Not on file'],
      ['Make', 'Holm'],
    ]);
    expect(unitFacts(unit, METRIC)[0]).toEqual(['Name', 'Walk-in']);
  });
});

describe('what an entry may be', () => {
  it.each([
    ['AB', true],
    ['7-W.1_A', true],
    ['A'.repeat(40), true],
    ['A', false],
    ['A'.repeat(41), false],
    ['-A1', false],
    ['A 1', false],
    ['A1!', false],
    ['!A1', false],
    ['ab1', false],
  ])('a label’s code %j: %j', (code, fits) => {
    expect(TAG_FORM.test(code)).toBe(fits);
  });

  it('holds with its ends', () => {
    expect([-430, 5000, -431, 5001].map((m) => within(LIMITS.altitudeM, m))).toEqual([true, true, false, false]);
    expect([-90, 90, 90.1].map((d) => within(LIMITS.lat, d))).toEqual([true, true, false]);
    expect([-180, 180, -180.1].map((d) => within(LIMITS.lng, d))).toEqual([true, true, false]);
    expect([1, 104, 0, 105].map((n) => within(LIMITS.weeks, n))).toEqual([true, true, false, false]);
  });
});
