import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { REFRIGERANT_IDS, REFRIGERANTS } from '@/lib/core/refrigerants';
import { componentsOf } from '@/lib/core/refrigerants/exact';
import { Helmholtz } from '@/lib/core/refrigerants/models/helmholtz';
import { Mixture } from '@/lib/core/refrigerants/models/mixture';
import { boundaryPoint, firstGuess, type Branch } from '@/lib/core/refrigerants/solvers/bubble-dew';
import { RUNS } from './arbitrary';

const BLENDS = REFRIGERANT_IDS.filter((id) => REFRIGERANTS[id]!.kind === 'blend');
const blend = fc.constantFrom(...BLENDS);
const branch = fc.constantFrom<Branch>('bubble', 'dew');

function reversed(id: string) {
  const { components, z } = componentsOf(id);
  return { components: [...components].reverse(), z: z.slice().reverse() };
}

describe('the mixture model', () => {
  it('does not care in which order the components are written', () => {
    fc.assert(
      fc.property(blend, branch, fc.double({ min: 230, max: 320, noNaN: true }), (id, side, T) => {
        const [a, b] = [componentsOf(id), reversed(id)].map(({ components, z }) => {
          const mixture = new Mixture(components);
          return boundaryPoint(mixture, z, side, T, firstGuess(mixture, z, side, T));
        });
        expect(a!.status).toBe('converged');
        expect(b!.status).toBe('converged');
        expect(b!.p / a!.p).toBeCloseTo(1, 9);
        a!.other.forEach((y, i) => expect(b!.other[a!.other.length - 1 - i]).toBeCloseTo(y, 9));
      }),
      { ...RUNS, numRuns: 60 },
    );
  });

  it('gives fugacities that are the slopes of n·αʳ, by differences', () => {
    fc.assert(
      fc.property(
        blend,
        fc.double({ min: 250, max: 420, noNaN: true }),
        fc.double({ min: 0.05, max: 2.4, noNaN: true }),
        (id, T, delta) => {
          const { components, z } = componentsOf(id);
          const mixture = new Mixture(components);
          mixture.reducing.setComposition(z);
          const rho = delta / mixture.reducing.v;
          // One mole in a fixed volume; adding d of component i changes the composition and the density.
          const energy = (i: number, d: number) => {
            const n = 1 + d;
            mixture.evaluate(
              T,
              rho * n,
              z.map((x, k) => (x + (k === i ? d : 0)) / n),
            );
            return n * mixture.a00;
          };
          const d = 1e-5;
          const slopes = Array.from(z, (_, i) => (energy(i, d) - energy(i, -d)) / (2 * d));
          mixture.evaluate(T, rho, z);
          slopes.forEach((slope, i) => expect(Math.abs(mixture.fugacity[i]! - slope)).toBeLessThan(1e-6 * (1 + Math.abs(slope))));
        },
      ),
      { ...RUNS, numRuns: 100 },
    );
  });

  it('is the same fluid when its composition is fixed and its terms are merged', () => {
    fc.assert(
      fc.property(
        blend,
        fc.double({ min: 220, max: 420, noNaN: true }),
        fc.double({ min: 0.01, max: 2.6, noNaN: true }),
        (id, T, delta) => {
          const { components, z } = componentsOf(id);
          const mixture = new Mixture(components);
          const fixed = new Helmholtz(mixture.atComposition(z));
          const rho = delta * fixed.reducingRho;
          const p = mixture.evaluate(T, rho / mixture.molarMass(z), z);
          expect(fixed.pressure(T, rho) / p).toBeCloseTo(1, 8);
        },
      ),
      RUNS,
    );
  });

  it('equals the pure fluid where all components are the same', () => {
    const { components } = componentsOf('R454C');
    const r32 = components[0]!;
    const mixture = new Mixture(components);
    const pure = new Helmholtz(r32);
    const p = mixture.evaluate(300, 1000, [1, 0]);
    // The mixture's gas constant is CODATA 2018's, the paper's own is 1e-6 from it.
    expect(p / pure.pressure(300, 1000 * r32.molarMass)).toBeCloseTo(1, 5);
  });

  it('names the pair that has no parameters', () => {
    const [r125] = componentsOf('R407A').components.slice(1);
    const [, r227] = componentsOf('R515B').components;
    expect(() => new Mixture([r125!, r227!])).toThrow('No binary parameters for R125 with R227ea');
  });
});
