import { describe, expect, it } from 'vitest';
import { UNIT_KINDS } from '@/lib/core/equipment/build';
import { cautionsFor, FOOD_CAUTION, FOOD_LIMIT_K } from '@/lib/core/findings/cautions';
import { checklistFor } from '@/lib/core/findings/checklist';

const plain = { safetyClass: 'A1', flammable: false, roofWork: false } as const;
const titles = (over: Partial<Parameters<typeof cautionsFor>[0]>) => cautionsFor({ ...plain, ...over }).map((c) => `${c.step}: ${c.title}`);
const wordsOf = (over: Partial<Parameters<typeof cautionsFor>[0]>, title: string) =>
  cautionsFor({ ...plain, ...over }).find((c) => c.title === title)?.words ?? '';

describe('cautions of a unit', () => {
  it('stand on every unit once, each at its step, power first', () => {
    expect(titles({})).toEqual([
      'before_opening: Power off and locked out',
      'coil: Sharp fins',
      'chemicals: Chemicals on aluminium',
      'readings: Hot discharge line, and pressure',
    ]);
  });

  it.each(['A2L', 'A2', 'A3'] as const)('say before opening that %s burns', (safetyClass) => {
    expect(titles({ safetyClass, flammable: true }).slice(0, 2)).toEqual([
      'before_opening: Power off and locked out',
      'before_opening: Refrigerant that burns',
    ]);
    const words = wordsOf({ safetyClass, flammable: true }, 'Refrigerant that burns');
    expect(words).toMatch(/flammable/i);
    expect(words).toMatch(/ventilate/i);
    expect(words).toMatch(/spark/i);
    expect(words).toContain('Local code');
  });

  it('are sternest where it burns most', () => {
    expect(wordsOf({ safetyClass: 'A3', flammable: true }, 'Refrigerant that burns')).toMatch(
      /Highly flammable.*Unplug before opening.*licence/,
    );
    expect(wordsOf({ safetyClass: 'A2L', flammable: true }, 'Refrigerant that burns')).toMatch(/^Mildly flammable/);
    expect(wordsOf({ safetyClass: 'A2', flammable: true }, 'Refrigerant that burns')).toMatch(/^Flammable/);
  });

  it('take a refrigerant that nobody knows as one that burns', () => {
    expect(titles({ safetyClass: null })).toContain('before_opening: Refrigerant not known');
    expect(wordsOf({ safetyClass: null }, 'Refrigerant not known')).toMatch(/nameplate first.*treat it as flammable/);
  });

  it('speak of the ladder where somebody has to climb, and nowhere else', () => {
    expect(titles({ roofWork: true })).toContain('ladder: Ladder or roof');
    expect(wordsOf({ roofWork: true }, 'Ladder or roof')).toMatch(/three points of contact.*no roof in storm or ice/);
    expect(titles({}).some((t) => t.startsWith('ladder'))).toBe(false);
  });

  it('defer to local code where circuits, power and heights are met, and say what hurts', () => {
    for (const title of ['Power off and locked out', 'Hot discharge line, and pressure', 'Ladder or roof'])
      expect(wordsOf({ roofWork: true }, title), title).toContain('your licence come first');
    expect(wordsOf({}, 'Power off and locked out')).toMatch(/lock and tag, and prove it dead/);
    expect(wordsOf({}, 'Sharp fins')).toMatch(/Cut-resistant gloves/);
    expect(wordsOf({}, 'Chemicals on aluminium')).toMatch(/never mix cleaners/);
    expect(wordsOf({}, 'Hot discharge line, and pressure')).toMatch(/Never vent refrigerant/);
  });

  it('food: at 41 °F, which is 5 °C, and the kitchen decides', () => {
    expect(FOOD_LIMIT_K - 273.15).toBeCloseTo(5, 9);
    expect(((FOOD_LIMIT_K - 273.15) * 9) / 5 + 32).toBeCloseTo(41, 9);
    expect(`${FOOD_CAUTION.title} ${FOOD_CAUTION.words}`).toMatch(/41 °F \(5 °C\).*theirs to decide.*does not rule on it/);
  });
});

describe('what to look at', () => {
  it.each(UNIT_KINDS)('%s: what is its own first, then what every unit has', (kind) => {
    const list = checklistFor(kind);
    expect(list.at(-1)).toBe('Photo before and after');
    expect(list.length).toBeGreaterThan(10);
    expect(new Set(list).size).toBe(list.length);
    expect(list.every((line) => line.length > 2)).toBe(true);
  });

  it('a freezer room adds its relief vent to what a cooler has, a rail its drain, ice its scale', () => {
    expect(checklistFor('walk_in_freezer')).toContain('Pressure-relief vent');
    expect(checklistFor('walk_in_freezer')).toEqual(expect.arrayContaining(checklistFor('walk_in_cooler') as string[]));
    expect(checklistFor('walk_in_cooler')).not.toContain('Pressure-relief vent');
    expect(checklistFor('prep_table')).toContain('Rail drain');
    expect(checklistFor('ice_machine')).toContain('Scale');
    expect(checklistFor('reach_in')).toContain('Pan and hose');
    expect(checklistFor('remote_condensing_unit')).toContain('Disconnect within sight');
  });
});
