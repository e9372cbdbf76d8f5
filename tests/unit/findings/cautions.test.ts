import { describe, expect, it } from 'vitest';
import {
  cautionsFor,
  FOOD_CAUTION,
  FOOD_LIMIT_K,
  WORK_STEP_LABEL,
  WORK_STEP_SHORT,
  WORK_STEPS,
  type AboutUnit,
} from '@/lib/core/findings/cautions';

const unit = (over: Partial<AboutUnit> = {}): AboutUnit => ({
  kind: 'reach_in',
  condenserKind: 'fin_and_tube',
  application: 'medium',
  refrigerant: 'R134a',
  safetyClass: 'A1',
  charge: '8.1 oz',
  roofWork: false,
  topics: ['coil'],
  ...over,
});
const titles = (over: Partial<AboutUnit> = {}) => cautionsFor(unit(over)).map((c) => c.title);
const words = (title: string, over: Partial<AboutUnit> = {}) => {
  const c = cautionsFor(unit(over)).find((one) => one.title === title);
  return c ? `${c.words} ${c.more ?? ''}`.trim() : '';
};

describe('cautions', () => {
  it('stand once, in the order of the work, never above the step they belong to', () => {
    const list = cautionsFor(unit({ safetyClass: 'A3', refrigerant: 'R290', roofWork: true, kind: 'walk_in_freezer', application: 'low' }));
    expect(new Set(list.map((c) => c.title)).size).toBe(list.length);
    const order = list.map((c) => WORK_STEPS.indexOf(c.step));
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(list.find((c) => c.title === 'Lock out first')?.step).toBe('look');
    expect(list.find((c) => c.title === 'Power back on')?.step).toBe('restore');
  });

  it('the commonest unit has four', () => expect(titles()).toEqual(['It runs', 'Lock out first', 'Fins, cleaner, water', 'Power back on']));

  it.each(['A2L', 'A2', 'A3'] as const)(
    '%s: detector and air before anything is switched, the charge beside it, and again before power',
    (safetyClass) => {
      const said = cautionsFor(unit({ safetyClass, refrigerant: 'R290' })).find((c) => c.title.endsWith(`(${safetyClass})`));
      expect(said?.words).toMatch(/Ventilate.*detector.*before you switch anything/);
      expect(said?.words).toContain('8.1 oz');
      expect(words('Power back on', { safetyClass, refrigerant: 'R290' })).toContain('detector clear once more');
    },
  );

  it('no charge on file is said, not left out', () => {
    expect(
      cautionsFor(unit({ safetyClass: 'A3', refrigerant: 'R290', charge: null })).some((c) => c.words.includes('Charge not on file')),
    ).toBe(true);
  });

  it('CO2 has its own: pressure at standstill, and air', () => {
    expect(words('CO2', { refrigerant: 'R744' })).toMatch(/running or stopped.*smothers/);
    expect(words('Power back on', { refrigerant: 'R744' })).not.toContain('detector');
  });

  it('a refrigerant nobody knows is treated as one that burns', () => {
    expect(words('Refrigerant not known', { safetyClass: null, refrigerant: 'unknown' })).toMatch(/treat it as one that burns/);
    expect(words('Power back on', { safetyClass: null, refrigerant: 'unknown' })).toContain('detector');
  });

  it('a lock where there is no plug; an inside release; warm water on a frozen drain', () => {
    expect(words('Lock out first')).toMatch(/lock the disconnect where it is hard-wired/);
    expect(words('Walk-in', { kind: 'walk_in_cooler' })).toMatch(/inside release.*tell someone/);
    expect(words('Frozen drain', { application: 'low' })).toMatch(/^Warm water, never a flame/);
    expect(words('Ladder or roof', { roofWork: true })).toMatch(/three points of contact/);
  });

  it('no fins where there are none, and wash water off the wiring where there are', () => {
    expect(titles({ condenserKind: 'water_cooled' })).not.toContain('Fins, cleaner, water');
    expect(titles({ topics: [] })).not.toContain('Fins, cleaner, water');
    expect(words('Fins, cleaner, water')).toContain('wash water off motors, controls and wiring');
    expect(titles({ kind: 'ice_machine', topics: ['chemicals'] })).toContain('Descaler and sanitiser');
  });

  // Two lines on a phone: what must be done is never behind a fold.
  it('what is always in sight is short', () => {
    for (const c of cautionsFor(
      unit({ safetyClass: 'A3', refrigerant: 'R290', roofWork: true, kind: 'walk_in_freezer', application: 'low' }),
    ))
      expect(c.words.length, c.title).toBeLessThanOrEqual(125);
  });

  it('defer to code, maker and licence', () => {
    for (const title of ['It runs', 'Lock out first'])
      expect(words(title)).toContain('Local code, the maker’s instructions and your licence come first.');
  });

  it('the detector is spoken of where something burns, and nowhere else', () => {
    expect(words('Power back on')).toBe(
      'Hands, tools and rags clear, guards and covers on. Let it run 10 to 15 minutes before you read it.',
    );
    expect(cautionsFor(unit({ refrigerant: 'R744', safetyClass: 'A1' })).some((c) => /detector/.test(`${c.words} ${c.more}`))).toBe(false);
  });

  it('descaler is an ice machine’s, and only where it is used', () => {
    expect(titles({ kind: 'ice_machine', topics: ['coil'] })).not.toContain('Descaler and sanitiser');
    expect(titles({ kind: 'reach_in', topics: ['chemicals'] })).not.toContain('Descaler and sanitiser');
    expect(titles({ kind: 'ice_machine', application: 'low' })).not.toContain('Frozen drain');
    expect(titles()).not.toContain('Frozen drain');
    expect(titles({ roofWork: false })).not.toContain('Ladder or roof');
    expect(titles({ kind: 'undercounter' })).not.toContain('Walk-in');
  });

  // What warns of danger changes on purpose alone: the whole text of each caution, as it is read.
  it('say this, word for word', async () => {
    const units: Partial<AboutUnit>[] = [
      {},
      { refrigerant: 'R290', safetyClass: 'A3', roofWork: true, kind: 'walk_in_freezer', application: 'low' },
      { refrigerant: 'R454C', safetyClass: 'A2L', charge: null, kind: 'walk_in_cooler' },
      { refrigerant: 'R152a', safetyClass: 'A2', condenserKind: 'water_cooled' },
      { refrigerant: 'R744' },
      { refrigerant: 'unknown', safetyClass: null, kind: 'ice_machine', topics: ['coil', 'chemicals'] },
    ];
    const said = new Set(
      units.flatMap((u) => cautionsFor(unit(u)).map((c) => `${WORK_STEP_LABEL[c.step]} · ${c.title}\n  ${c.words}\n  ${c.more ?? '-'}\n`)),
    );
    const food = `${FOOD_CAUTION.title} (${FOOD_LIMIT_K} K)\n  ${FOOD_CAUTION.words}\n`;
    await expect([...said, food].join('\n')).toMatchFileSnapshot('cautions.txt');
  });

  it('each step of the work has its words, long and short', () => {
    expect(WORK_STEPS.map((s) => [WORK_STEP_LABEL[s], WORK_STEP_SHORT[s]])).toEqual([
      ['Read while it runs', 'Read'],
      ['Lock out, look and clean', 'Lock out'],
      ['Power back, wait, read', 'Power back'],
      ['Leave the unit', 'Leave'],
    ]);
  });
});
