import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  isFailure,
  REFRIGERANT_IDS,
  REFRIGERANTS,
  saturatedLiquid,
  saturatedVapour,
  unwrap,
  vapourAtEntropy,
} from '@/lib/core/refrigerants';
import { EQUATIONS } from '@/lib/core/refrigerants/data/equations';
import { engineOf, type Engine } from '@/lib/core/refrigerants/engine';
import { componentsOf } from '@/lib/core/refrigerants/exact';
import { ancillaryValue } from '@/lib/core/refrigerants/models/ancillary';
import { Helmholtz } from '@/lib/core/refrigerants/models/helmholtz';
import { Mixture } from '@/lib/core/refrigerants/models/mixture';
import { Surface } from '@/lib/core/refrigerants/models/surface';
import { boundaryPoint, firstGuess, type Branch } from '@/lib/core/refrigerants/solvers/bubble-dew';
import { densityFrom, gasDensity } from '@/lib/core/refrigerants/solvers/density';
import { temperatureAtEntropy } from '@/lib/core/refrigerants/solvers/entropy';
import { pureSaturation } from '@/lib/core/refrigerants/solvers/pure-saturation';
import { Tracer } from '@/lib/core/refrigerants/solvers/tracer';
import { RUNS } from './arbitrary';

const ids = (kind: string) => REFRIGERANT_IDS.filter((id) => REFRIGERANTS[id]?.kind === kind);
const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });
function engine(id: string): Engine {
  const found = engineOf(id);
  if (!found) throw new Error(id);
  return found;
}

describe('saturation of a pure fluid', () => {
  const solved = (id: string, share: number, [l, v]: [number, number]) => {
    const eq = EQUATIONS[id];
    if (!eq) throw new Error(id);
    const model = new Helmholtz(eq);
    const T = share * eq.critical.T;
    const from = (a: typeof eq.ancillaries.rhoL) => ancillaryValue(a, T) * eq.molarMass;
    return { model, T, point: pureSaturation(model, T, l * from(eq.ancillaries.rhoL), v * from(eq.ancillaries.rhoV)) };
  };

  it('is one pressure and one Gibbs energy in two phases, found within a dozen steps of the published start', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ids('pure')), double(0.6, 0.995), double(0.95, 1.05), double(0.8, 1.2), (id, share, l, v) => {
        const { model, T, point } = solved(id, share, share < 0.9 ? [l, v] : [1, 1]);
        expect(point.status).toBe('converged');
        expect(point.iterations).toBeLessThanOrEqual(13);
        expect(point.residual).toBeLessThan(1e-8);
        const gibbs = (rho: number) => {
          const state = model.state(T, rho);
          return state.h - T * state.s;
        };
        expect(Math.abs(gibbs(point.rhoL) - gibbs(point.rhoV))).toBeLessThan(1e-5);
        // A liquid is so stiff that its own pressure is known to fewer digits.
        expect(Math.abs(model.pressure(T, point.rhoL) - point.p)).toBeLessThan(1e-9 * model.R * T * point.rhoL);
      }),
      RUNS,
    );
  });

  it('is not found where both starts are one density, where there is none, or from no number', () => {
    for (const id of ids('pure')) {
      const bad: [number, [number, number]][] = [[0.8, [0.1, 0.1]], [0.8, [NaN, 1]], [0.8, [1, NaN]], [1.02, [1, 1]]]; // prettier-ignore
      for (const [share, starts] of bad) expect(solved(id, share, starts).point.status, `${id} ${share} ${starts}`).toBe('not_converged');
    }
  });
});

describe('bubble and dew points of a mixture', () => {
  it('have equal fugacities and pressures, whole fractions, and the other phase richer in what boils first', () => {
    const branch = fc.constantFrom<Branch>('bubble', 'dew');
    fc.assert(
      fc.property(fc.constantFrom(...ids('blend')), branch, double(225, 325), (id, side, T) => {
        const { components, z } = componentsOf(id);
        const mixture = new Mixture(components);
        const point = boundaryPoint(mixture, z, side, T, firstGuess(mixture, z, side, T));
        expect(point.status).toBe('converged');
        expect(point.iterations).toBeLessThanOrEqual(15);
        const [x, y] = side === 'bubble' ? [z, point.other] : [point.other, z];
        const phase = (rho: number, of: Float64Array) => {
          const p = mixture.evaluate(T, rho, of);
          return { p, lnF: of.map((share, i) => Math.log(share * rho) + (mixture.fugacity[i] ?? NaN)) };
        };
        const [liquid, gas] = [phase(point.rhoL, x), phase(point.rhoV, y)];
        expect(Math.abs(liquid.p - gas.p) / gas.p).toBeLessThan(1e-7);
        expect(point.p / gas.p).toBeCloseTo(1, 9);
        liquid.lnF.forEach((f, i) => expect(f).toBeCloseTo(gas.lnF[i] ?? NaN, 8));
        expect(point.other.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
      }),
      { ...RUNS, numRuns: 80 },
    );
  });

  it('are not found beyond the end of the curve, and the same point from a poor start', () => {
    for (const id of ids('blend')) {
      const { components, z } = componentsOf(id);
      const mixture = new Mixture(components);
      const at = (T: number, spoil = 1) => {
        const start = firstGuess(mixture, z, 'dew', T);
        return boundaryPoint(mixture, z, 'dew', T, { ...start, rhoV: spoil * start.rhoV });
      };
      expect(at(engine(id).limits.maxSaturationT + 15).status, id).toBe('not_converged');
      expect(at(290, 1.4).p / at(290).p, id).toBeCloseTo(1, 9);
    }
  });
});

describe('density at a pressure', () => {
  it('is found from any start in the same phase', () => {
    fc.assert(
      fc.property(fc.constantFrom(...REFRIGERANT_IDS), double(0.65, 0.9), double(1.05, 3), double(0.97, 1.2), (id, share, over, from) => {
        const { liquid, curves, limits } = engine(id);
        const T = Math.max(limits.minT, share * limits.criticalT);
        const p = Math.min(limits.maxP, over * curves.bubblePressure(T));
        const rho = densityFrom(liquid, T, p, from * curves.liquidDensity(T));
        // A liquid's pressure is a small difference of large numbers.
        expect(Math.abs(liquid.pressure(T, rho) - p)).toBeLessThan(1e-8 * rho * liquid.R * T);
        expect(rho).toBeGreaterThan(0.999 * curves.liquidDensity(T));
      }),
      RUNS,
    );
  });

  it('is that of the gas up to its dew point, close to ideal where thin', () => {
    fc.assert(
      fc.property(fc.constantFrom(...REFRIGERANT_IDS), double(0.65, 0.98), double(1e-4, 1), (id, share, part) => {
        const { vapour, curves, limits } = engine(id);
        const T = Math.max(limits.minT, share * limits.criticalT);
        const p = part * curves.dewPressure(T);
        const rho = gasDensity(vapour, T, p);
        expect(vapour.pressure(T, rho) / p).toBeCloseTo(1, 9);
        const z = p / (rho * vapour.R * T);
        expect(z).toBeLessThanOrEqual(1);
        if (part < 0.01) expect(z).toBeGreaterThan(0.99);
      }),
      RUNS,
    );
  });

  it('is no number for a gas far past its dew point, and for a pressure that is none', () => {
    for (const id of [...ids('pure'), ...ids('pseudo_pure')]) {
      const { vapour, curves, limits } = engine(id);
      const T = Math.max(limits.minT, 0.78 * limits.criticalT);
      expect(gasDensity(vapour, T, 4 * curves.dewPressure(T)), id).toBeNaN();
    }
    for (const id of REFRIGERANT_IDS) expect(densityFrom(engine(id).vapour, 280, NaN, 5), id).toBeNaN();
  });
});

describe('vapour of an entropy', () => {
  it('is found in a few steps, hotter the more entropy, and has it', () => {
    fc.assert(
      fc.property(fc.constantFrom(...REFRIGERANT_IDS), double(0.66, 0.97), double(1, 120), (id, share, more) => {
        const { vapour, curves, limits } = engine(id);
        const dew = curves.saturatedVapour(Math.max(limits.minT, share * limits.criticalT));
        const end = temperatureAtEntropy(vapour, dew.p, dew.s + more, dew);
        expect(end?.iterations).toBeLessThanOrEqual(8);
        const state = vapour.state(end?.T ?? NaN, end?.rho ?? NaN);
        expect(state.s).toBeCloseTo(dew.s + more, 6);
        expect(state.p / dew.p).toBeCloseTo(1, 8);
        expect(state.T).toBeGreaterThan(dew.T);
      }),
      RUNS,
    );
  });

  it('is nothing for what is no number', () => {
    const { vapour, curves } = engine('R134a');
    const dew = curves.saturatedVapour(280);
    expect(temperatureAtEntropy(vapour, dew.p, NaN, dew)).toBeUndefined();
    expect(temperatureAtEntropy(vapour, NaN, dew.s, dew)).toBeUndefined();
  });
});

describe('a compression that ends wet', () => {
  it('of one substance lies on the straight line between both phases', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ids('pure')), double(0.7, 0.98), double(0.801, 0.9999), (id, share, quality) => {
        const T = Math.max(engine(id).limits.minT, share * engine(id).limits.criticalT);
        const [l, v] = [unwrap(saturatedLiquid(id, T)), unwrap(saturatedVapour(id, T))];
        const mix = (a: number, b: number) => a + quality * (b - a);
        const end = unwrap(vapourAtEntropy(id, { p: v.p, s: mix(l.s, v.s) }));
        expect(end.quality).toBeCloseTo(quality, 6);
        expect(end.T).toBeCloseTo(T, 5);
        expect(end.cp).toBe(Infinity);
        expect(Math.abs(end.h - mix(l.h, v.h))).toBeLessThan(1e-4 * (v.h - l.h));
        expect(end.rho * mix(1 / l.rho, 1 / v.rho)).toBeCloseTo(1, 5);
      }),
      RUNS,
    );
  });

  it('of a blend is between its bubble and its dew point, and none where a fifth or more is liquid', () => {
    for (const id of ids('blend')) {
      const dew = unwrap(saturatedVapour(id, 305));
      const { curves } = engine(id);
      const bubble = curves.saturatedLiquid(curves.bubbleTemperature(dew.p));
      const at = (quality: number) => vapourAtEntropy(id, { p: dew.p, s: dew.s - (1 - quality) * (dew.s - bubble.s) });
      const wet = unwrap(at(0.9));
      expect(wet.quality).toBeCloseTo(0.9, 6);
      expect(wet.T).toBeLessThan(dew.T);
      expect(wet.T).toBeGreaterThan(bubble.T);
      expect(wet.h).toBeLessThan(dew.h - 0.08 * (dew.h - bubble.h));
      expect(wet.rho).toBeGreaterThan(dew.rho);
      expect(
        [0.801, 0.799].map((x) => isFailure(at(x))),
        id,
      ).toEqual([false, true]);
    }
  });
});

describe('a curve that is followed', () => {
  /** Two roots at each temperature, a low one that ends at `end` K and one far above it; what lies near is found. */
  function curve(end = 350) {
    const asked: number[] = [];
    const low = (T: number) => Math.exp(0.03 * (T - 300));
    const solve = (T: number, start: Float64Array) => {
      asked.push(T);
      if (T > end) return undefined;
      const from = start[0] ?? NaN;
      if (!(from > 0)) return undefined;
      return Float64Array.of(Math.abs(Math.log(from / low(T))) < 0.5 ? low(T) : 3 + low(T));
    };
    return { asked, low, tracer: new Tracer(solve, { T: 300, values: Float64Array.of(1.2) }) };
  }

  it('stays on its own root however far it is asked to go', () => {
    fc.assert(
      fc.property(fc.array(double(200, 349), { minLength: 1, maxLength: 5 }), (temperatures) => {
        const { tracer, low } = curve();
        for (const T of temperatures) expect((tracer.at(T)?.[0] ?? NaN) / low(T)).toBeCloseTo(1, 9);
      }),
      RUNS,
    );
  });

  it('remembers what it solved, and goes on from what is nearest', () => {
    const { tracer, asked } = curve();
    tracer.at(340);
    const once = asked.length;
    tracer.at(340);
    expect(asked.length).toBe(once);
    tracer.at(341);
    expect(asked.length).toBe(once + 1);
  });

  it('has no point past its end, and finds the end as near as asked, from the highest point known', () => {
    expect(curve(320).tracer.at(325)).toBeUndefined();
    for (const resolution of [1, 0.1, 1e-3]) {
      const { tracer, low } = curve(327.3);
      const top = tracer.highest(resolution);
      expect(top.T).toBeLessThanOrEqual(327.3);
      expect(top.T).toBeGreaterThan(327.3 - 2 * resolution);
      expect(top.values[0]).toBeCloseTo(low(top.T), 9);
    }
    const { tracer, asked } = curve(327.3);
    tracer.at(326);
    asked.length = 0;
    tracer.highest(0.1);
    expect(Math.min(...asked)).toBeGreaterThan(326);
  });

  it('is refused where its first point cannot be solved', () => {
    expect(() => new Tracer(() => undefined, { T: 300, values: Float64Array.of(1) })).toThrow('300 K');
  });
});

describe('a table of a blend', () => {
  const surfaces = ids('blend').flatMap((id) => [engine(id).vapour, engine(id).liquid]);

  it('has derivatives that are its slopes, in each patch and as far as it holds', () => {
    fc.assert(
      fc.property(fc.constantFrom(...surfaces), double(215, 330), double(0.05, 0.95), (model, T, share) => {
        const r = model.residual;
        const tau = model.reducingT / T;
        const h = 1e-4;
        r.setTau(tau * (1 + h));
        const most = Math.min(r.highestDelta(), (r.setTau(tau * (1 - h)), r.highestDelta()));
        const delta = share * most;
        const at = (t: number, d: number) => {
          r.setTau(tau * (1 + t * h));
          r.evaluate(delta * (1 + d * h));
          return { ...r, a: r.a00 };
        };
        const [up, down, hot, cold] = [at(0, 1), at(0, -1), at(1, 0), at(-1, 0)];
        const mid = at(0, 0);
        const scale = 1 + Math.max(...[mid.a00, mid.a01, mid.a02, mid.a10, mid.a20, mid.a11].map(Math.abs));
        const close = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThan(5e-4 * scale);
        close(mid.a01, (up.a - down.a) / (2 * h));
        close(mid.a10, (hot.a - cold.a) / (2 * h));
        close(mid.a02 + mid.a01, (up.a01 - down.a01) / (2 * h));
        close(mid.a20 + mid.a10, (hot.a10 - cold.a10) / (2 * h));
        close(mid.a11, (up.a10 - down.a10) / (2 * h));
        r.slope(delta);
        expect([r.a01, r.a02]).toEqual([mid.a01, mid.a02]);
      }),
      { ...RUNS, numRuns: 200 },
    );
  });

  it('is an ideal gas when thin, and leaves it by its second virial coefficient', () => {
    for (const id of ids('blend'))
      for (const T of [230, 300, 360]) {
        const { vapour } = engine(id);
        const thin = 1e-6 * vapour.reducingRho;
        expect(vapour.pressure(T, thin) / (thin * vapour.R * T)).toBeCloseTo(1 + vapour.residual.virial() * 1e-6, 10);
      }
  });

  it('is the sum of its polynomials', () => {
    // T₀ = 1, T₁ = x, T₂ = 2x² − 1 (Abramowitz & Stegun 22.4.4): small enough to write out.
    const rows = [[1, 2, 0.5], [0.3, -0.7], [0.2]]; // prettier-ignore
    const plain = (tau: number, delta: number) => {
      const [x, y] = [tau - 2, (delta - 2) / 2];
      return 1 + 2 * x + 0.5 * (2 * x * x - 1) + (0.3 - 0.7 * x) * y + 0.2 * (2 * y * y - 1);
    };
    for (const overDelta of [true, false]) {
      const table = new Surface({ overDelta, patches: [{ tau: [1, 3], delta: [0, 4], rows }, { tau: [3, 4], delta: [0, 2], rows: [[7]] }] }); // prettier-ignore
      for (const [tau, delta] of [
        [1.2, 0.5],
        [2, 2],
        [2.9, 3.9],
        [1, 4],
        [3, 1],
      ] as const) {
        // prettier-ignore
        table.setTau(tau);
        table.evaluate(delta);
        expect(table.a00).toBeCloseTo((overDelta ? delta : 1) * plain(tau, delta), 12);
        expect(table.highestDelta()).toBeCloseTo(4, 12);
        expect(table.virial()).toBeCloseTo(plain(tau, 0), 12);
      }
      table.setTau(3.5);
      table.evaluate(1);
      expect(table.a00).toBeCloseTo(7, 12);
      expect(table.highestDelta()).toBeCloseTo(2, 12);
    }
  });
});
