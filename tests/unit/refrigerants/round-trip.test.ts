import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bubblePressure,
  bubbleTemperature,
  dewPressure,
  dewTemperature,
  glide,
  unwrap,
  liquid,
  midpointTemperature,
  REFRIGERANT_IDS,
  saturatedLiquid,
  saturatedVapour,
  vapour,
  vapourAtEntropy,
} from '@/lib/core/refrigerants';
import { RUNS, saturationPoint } from './arbitrary';

const anywhere = saturationPoint(REFRIGERANT_IDS, 0);

describe('there and back', () => {
  it('T → bubble and dew pressure → T', () => {
    fc.assert(
      fc.property(anywhere, ({ id, T }) => {
        expect(unwrap(bubbleTemperature(id, unwrap(bubblePressure(id, T))))).toBeCloseTo(T, 6);
        expect(unwrap(dewTemperature(id, unwrap(dewPressure(id, T))))).toBeCloseTo(T, 6);
      }),
      RUNS,
    );
  });

  it('saturated states are the single-phase states at their own T and p', () => {
    fc.assert(
      fc.property(saturationPoint(REFRIGERANT_IDS, 2), ({ id, T }) => {
        const [v, l] = [unwrap(saturatedVapour(id, T)), unwrap(saturatedLiquid(id, T))];
        expect(Math.abs(unwrap(vapour(id, { T, p: v.p })).h - v.h)).toBeLessThan(0.2);
        expect(Math.abs(unwrap(liquid(id, { T, p: l.p })).h - l.h)).toBeLessThan(0.2);
      }),
      RUNS,
    );
  });

  it('T, p → s → T', () => {
    const superheated = saturationPoint(REFRIGERANT_IDS, 3).chain(({ id, T }) =>
      fc.record({ id: fc.constant(id), T: fc.constant(T), superheat: fc.double({ min: 0.1, max: 30, noNaN: true }) }),
    );
    fc.assert(
      fc.property(superheated, ({ id, T, superheat }) => {
        const p = unwrap(dewPressure(id, T));
        const state = unwrap(vapour(id, { T: T + superheat, p }));
        const back = unwrap(vapourAtEntropy(id, { p, s: state.s }));
        expect(back.T).toBeCloseTo(state.T, 5);
        expect(back.rho / state.rho).toBeCloseTo(1, 6);
      }),
      RUNS,
    );
  });
});

describe('glide', () => {
  it('is named: the midpoint lies half-way, dew above bubble', () => {
    const p = 1e6;
    const [bubble, dew] = [unwrap(bubbleTemperature('R448A', p)), unwrap(dewTemperature('R448A', p))];
    expect(dew - bubble).toBeGreaterThan(4);
    expect(unwrap(midpointTemperature('R448A', p))).toBeCloseTo((bubble + dew) / 2, 9);
    expect(unwrap(glide('R448A', p))).toBeCloseTo(dew - bubble, 9);
    expect(unwrap(glide('R134a', p))).toBeCloseTo(0, 9);
  });
});

describe('an isentropic compression that ends wet', () => {
  it('carries its quality and lies on the isobar between the phases', () => {
    // Isobutane's dew line leans over: from 5.5 K superheat at −2 °C to 55 °C it ends just inside.
    const suction = unwrap(vapour('R600a', { T: 276.54, p: unwrap(dewPressure('R600a', 271.04)) }));
    const p = unwrap(dewPressure('R600a', 328.3));
    const end = unwrap(vapourAtEntropy('R600a', { p, s: suction.s }));
    expect(end.T).toBeCloseTo(328.3, 4);
    expect(end.quality).toBeGreaterThan(0.98);
    expect(end.quality).toBeLessThan(1);
    expect(end.h).toBeLessThan(unwrap(saturatedVapour('R600a', 328.3)).h);
  });
});
