import { describe, expect, it } from 'vitest';
import {
  bubblePressure,
  bubbleTemperature,
  dewPressure,
  dewTemperature,
  isFailure,
  unwrap,
  liquid,
  PropertyError,
  REFRIGERANT_IDS,
  saturatedLiquid,
  saturatedVapour,
  vapour,
  vapourAtEntropy,
  type Result,
} from '@/lib/core/refrigerants';

const status = (x: Result<unknown>) => (isFailure(x) ? x.status : typeof x);
const atTemperature = [bubblePressure, dewPressure, saturatedLiquid, saturatedVapour] as const;
const atPressure = [bubbleTemperature, dewTemperature] as const;

describe.each(REFRIGERANT_IDS)('%s outside its range', (id) => {
  it('has no saturation above the critical point', () => {
    for (const f of atTemperature) expect(status(f(id, 450))).toBe('above_critical');
    for (const f of atPressure) expect(status(f(id, 9e6))).toBe('above_critical');
    expect(status(vapour(id, { T: 400, p: 9e6 }))).toBe('above_critical');
    expect(status(liquid(id, { T: 450, p: 5e6 }))).toBe('above_critical');
    expect(status(vapourAtEntropy(id, { p: 9e6, s: 1800 }))).toBe('above_critical');
  });

  it('answers with a status below its coldest, for nonsense and for what is no number', () => {
    for (const T of [100, 0, -5, NaN, -Infinity]) {
      for (const f of atTemperature) expect(status(f(id, T))).toBe('out_of_range');
      expect(status(vapour(id, { T, p: 1e5 }))).toBe('out_of_range');
      expect(status(liquid(id, { T, p: 1e6 }))).toBe('out_of_range');
    }
    for (const p of [0, -1e5, NaN]) {
      for (const f of atPressure) expect(status(f(id, p))).toBe('out_of_range');
      expect(status(vapour(id, { T: 280, p }))).toBe('out_of_range');
      expect(status(liquid(id, { T: 280, p }))).toBe('out_of_range');
      expect(status(vapourAtEntropy(id, { p, s: 1800 }))).toBe('out_of_range');
    }
    expect(status(vapour(id, { T: 3000, p: 1e5 }))).toBe('out_of_range');
    expect(status(liquid(id, { T: 280, p: 1e12 }))).toBe('out_of_range');
  });

  it('does not pass one phase off as the other', () => {
    const T = 280;
    const [bubble, dew] = [unwrap(bubblePressure(id, T)), unwrap(dewPressure(id, T))];
    expect(status(vapour(id, { T, p: bubble * 1.2 }))).toBe('wrong_phase');
    expect(status(liquid(id, { T, p: dew * 0.8 }))).toBe('wrong_phase');
    const wet = unwrap(saturatedLiquid(id, T)).s;
    expect(status(vapourAtEntropy(id, { p: dew, s: wet }))).toBe('wrong_phase');
    expect(status(vapourAtEntropy(id, { p: dew, s: NaN }))).toBe('wrong_phase');
  });

  it('still answers on the saturation line itself', () => {
    const T = 280;
    expect(status(vapour(id, { T, p: unwrap(dewPressure(id, T)) }))).toBe('object');
    expect(status(liquid(id, { T, p: unwrap(bubblePressure(id, T)) }))).toBe('object');
    const p = unwrap(dewPressure(id, T));
    expect(status(vapour(id, { T: unwrap(dewTemperature(id, p)), p }))).toBe('object');
  });
});

describe('an unknown refrigerant', () => {
  it.each(['R-134a', 'r134a', '', 'constructor', '__proto__'])('%j is a status', (id) => {
    expect(status(bubblePressure(id, 300))).toBe('unknown_refrigerant');
    expect(status(dewTemperature(id, 1e5))).toBe('unknown_refrigerant');
    expect(status(saturatedVapour(id, 300))).toBe('unknown_refrigerant');
    expect(status(vapour(id, { T: 300, p: 1e5 }))).toBe('unknown_refrigerant');
    expect(status(vapourAtEntropy(id, { p: 1e5, s: 1800 }))).toBe('unknown_refrigerant');
    expect(status(liquid(id, { T: 300, p: 1e6 }))).toBe('unknown_refrigerant');
  });
});

describe('unwrap', () => {
  it('unwraps a value and throws for a status', () => {
    expect(unwrap(bubblePressure('R134a', 300))).toBeGreaterThan(7e5);
    expect(() => unwrap(bubblePressure('R134a', 500))).toThrow(PropertyError);
  });
});
