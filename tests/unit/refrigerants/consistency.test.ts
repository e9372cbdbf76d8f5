import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bubblePressure,
  dewPressure,
  unwrap,
  liquid,
  REFRIGERANT_IDS,
  REFRIGERANTS,
  saturatedLiquid,
  saturatedVapour,
  vapour,
  type State,
} from '@/lib/core/refrigerants';
import { engineOf } from '@/lib/core/refrigerants/engine';
import { RUNS, saturationPoint } from './arbitrary';

const PURE = REFRIGERANT_IDS.filter((id) => REFRIGERANTS[id]!.kind === 'pure');
const relative = (a: number, b: number) => Math.abs(a / b - 1);

describe('pure fluids at saturation', () => {
  it('have the same Gibbs energy in both phases', () => {
    fc.assert(
      fc.property(saturationPoint(PURE, 0), ({ id, T }) => {
        const [l, v] = [unwrap(saturatedLiquid(id, T)), unwrap(saturatedVapour(id, T))];
        // 1 J/kg of h is less than a millionth of the latent heat's scale; tables are cut at 4e-5 J/kg.
        expect(Math.abs(l.h - T * l.s - (v.h - T * v.s))).toBeLessThan(1e-3);
      }),
      RUNS,
    );
  });

  it('have a pressure slope that matches their latent heat (Clapeyron)', () => {
    fc.assert(
      fc.property(saturationPoint(PURE, 3), ({ id, T: at }) => {
        const T = Math.max(at, engineOf(id)!.limits.minT + 0.1);
        const [l, v] = [unwrap(saturatedLiquid(id, T)), unwrap(saturatedVapour(id, T))];
        const d = 0.05;
        const slope = (unwrap(dewPressure(id, T + d)) - unwrap(dewPressure(id, T - d))) / (2 * d);
        expect(relative(slope * T * (1 / v.rho - 1 / l.rho), v.h - l.h)).toBeLessThan(2e-5);
      }),
      RUNS,
    );
  });
});

describe('blends', () => {
  const BLENDS = REFRIGERANT_IDS.filter((id) => REFRIGERANTS[id]!.kind === 'blend');

  it('boil at a higher pressure than they condense at, at the same temperature', () => {
    fc.assert(
      fc.property(saturationPoint(BLENDS, 0), ({ id, T }) => {
        expect(unwrap(bubblePressure(id, T))).toBeGreaterThan(unwrap(dewPressure(id, T)) * (1 - 1e-9));
      }),
      RUNS,
    );
  });
});

/** Single-phase states with room around them for differences in T and p. */
const vapourState = saturationPoint(REFRIGERANT_IDS, 0).chain(({ id, T }) =>
  fc.record({
    id: fc.constant(id),
    T: fc.double({ min: T + 2, max: T + 60, noNaN: true }),
    p: fc.double({ min: 0.1, max: 0.97, noNaN: true }).map((share) => share * unwrap(dewPressure(id, T))),
  }),
);
const liquidState = saturationPoint(REFRIGERANT_IDS, 12).chain(({ id, T }) =>
  fc.record({
    id: fc.constant(id),
    T: fc.constant(Math.max(T, engineOf(id)!.limits.minT + 1)),
    p: fc.double({ min: 1.1, max: 2, noNaN: true }).map((k) => k * unwrap(bubblePressure(id, T)) + 2e5),
  }),
);

type Read = (id: string, at: { T: number; p: number }) => State;
const PHASES: [string, fc.Arbitrary<{ id: string; T: number; p: number }>, Read][] = [
  ['vapour', vapourState.filter(({ id, T }) => T < engineOf(id)!.limits.maxT - 1), (id, at) => unwrap(vapour(id, at))],
  ['liquid', liquidState, (id, at) => unwrap(liquid(id, at))],
];

describe.each(PHASES)('%s of every refrigerant', (_, states, read) => {
  it('has a cp that is the slope of its enthalpy', () => {
    fc.assert(
      fc.property(states, ({ id, T, p }) => {
        const d = 0.05;
        const slope = (read(id, { T: T + d, p }).h - read(id, { T: T - d, p }).h) / (2 * d);
        expect(relative(read(id, { T, p }).cp, slope)).toBeLessThan(2e-4);
      }),
      RUNS,
    );
  });

  it('obeys Maxwell: entropy falls with pressure as volume grows with temperature', () => {
    fc.assert(
      fc.property(states, ({ id, T, p }) => {
        const [dT, dp] = [0.05, 1e-3 * p];
        const volume = (1 / read(id, { T: T + dT, p }).rho - 1 / read(id, { T: T - dT, p }).rho) / (2 * dT);
        const entropy = (read(id, { T, p: p + dp }).s - read(id, { T, p: p - dp }).s) / (2 * dp);
        expect(relative(-entropy, volume)).toBeLessThan(2e-3);
      }),
      RUNS,
    );
  });

  it('has h and s that change together: dh = T·ds at constant pressure', () => {
    fc.assert(
      fc.property(states, ({ id, T, p }) => {
        const [a, b] = [read(id, { T: T - 0.05, p }), read(id, { T: T + 0.05, p })];
        expect(relative(b.h - a.h, T * (b.s - a.s))).toBeLessThan(1e-5);
      }),
      RUNS,
    );
  });
});
