import { beforeAll, describe, expect, it } from 'vitest';
import { answers, type Row } from './judge/cases';
import { cleanIt, COIL_STATES, named, OTHER_STATES } from './judge/causes';
import { cover, share } from './judge/figures';
import type { State } from './world/states';

// A small part of the table that tests/plant/judge.ts prints, on other cases than it begins with. The bounds are what is
// reached now, with room for chance; what is aimed at stands beside them. Tighten them when the estimate gets better.
let rows: Row[] = [];
beforeAll(() => {
  rows = answers({ part: 'B', from: 20_000, cases: 100, sets: ['head_air', 'manifold', 'full'] });
}, 90_000);

const of = (states: readonly State[], graded = false) => rows.filter((r) => states.includes(r.state) && r.graded === graded);

describe('the estimate, judged by the outside plant', () => {
  it('holds conductance lost in its 80 % band on coils clean and fouled (aim 77–83 %)', () => {
    const { held, n } = cover(of(COIL_STATES), 'conductance');
    expect(n).toBeGreaterThan(150);
    expect(held).toBeGreaterThan(0.77);
  });

  it('holds cooling lost and extra energy there (aim 77–83 %)', () => {
    expect(cover(of(COIL_STATES), 'cooling').held).toBeGreaterThan(0.77);
    expect(cover(of(COIL_STATES), 'energy').held).toBeGreaterThan(0.77);
  });

  it('holds the discharge there, and not by being wide (aim 77–83 %)', () => {
    const { held } = cover(of(COIL_STATES), 'discharge');
    expect(held).toBeGreaterThan(0.74);
    expect(held).toBeLessThan(0.9);
  });

  it('does not ask for a cleaning of a clean coil (aim 2 %)', () => {
    expect(share(of(['clean']), cleanIt)).toBeLessThan(0.02);
    expect(share(of(['clean'], true), cleanIt)).toBeLessThan(0.02);
  });

  it('seldom asks for a cleaning where it is something else, least with grades (aim 5 and 1 %)', () => {
    expect(share(of(OTHER_STATES), cleanIt)).toBeLessThan(0.05);
    expect(share(of(OTHER_STATES, true), cleanIt)).toBeLessThan(0.01);
  });

  it('asks for it where half the conductance is gone and the coil was seen (aim 95 %)', () => {
    expect(share(of(['foul50'], true), cleanIt)).toBeGreaterThan(0.95);
  });

  it('names the coil where it is the coil, with a full set', () => {
    const full = of(['foul30', 'foul50']).filter((r) => r.set === 'full');
    expect(share(full, named)).toBeGreaterThan(0.8);
  });

  it('names other causes more often than not, with a full set and grades (aim 80 % each)', () => {
    const full = of(OTHER_STATES, true).filter((r) => r.set === 'full');
    expect(share(full, named)).toBeGreaterThan(0.6);
  });
});
