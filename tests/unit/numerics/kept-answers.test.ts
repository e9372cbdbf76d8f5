import { chebyshevFit, findRoot, fitPiecewise, integrate, minimise } from '@/lib/core/numerics';
import { RandomStream } from '@/lib/core/numerics/random';
import { keptAnswers } from '../../support/kept-answers';

// A regression, nothing more: see tests/support/kept-answers.ts. Anew by `node scripts/keep-answers.mjs numerics`.
// How many steps a method took is kept too: a slip in how it steps still ends at the right place, only later. The functions are
// made of what IEEE 754 rounds alike everywhere.

const eight = <T>(draw: () => T): T[] => Array.from({ length: 8 }, draw);
const stream = (name: string) => new RandomStream(11, name);

keptAnswers(import.meta.dirname, {
  'roots of a line, two cubics, a pole, a bend and a cliff': () =>
    [
      (x: number) => 2 * x - 3,
      (x: number) => x * x * x - 2 * x - 5,
      (x: number) => (x - 1) * (x - 1) * (x - 1) + 0.001 * (x - 1),
      (x: number) => 1 / (x + 1.01) - 0.2,
      (x: number) => x / (1 + Math.abs(x)) - 0.7,
      (x: number) => (x < 1.2 ? -1 : 3),
    ].map((f) => [findRoot(f, -1, 4), findRoot(f, 4, -1, { tolerance: 1e-3 }), findRoot(f, -1, 4, { maxIterations: 4 })].map((o) => [o.status, o.value, o.iterations])), // prettier-ignore
  'dips of a parabola, a quartic, a corner, at an edge, of a wave and of a flat': () =>
    [
      (x: number) => (x - 0.3) * (x - 0.3),
      (x: number) => (x - 2.1) * (x - 2.1) * (x - 2.1) * (x - 2.1) + 0.3 * x,
      (x: number) => Math.abs(x - 1.7),
      (x: number) => -x,
      (x: number) => x / (1 + x * x),
      (x: number) => Math.max(0, (x - 1) * (x - 1) - 1),
    ].map((f) => [minimise(f, -2, 5), minimise(f, 5, -2, { tolerance: 1e-2 }), minimise(f, -2, 5, { maxIterations: 6 })].map((o) => [o.status, Number(o.value.toPrecision(5)), o.iterations])), // prettier-ignore
  'areas under a square root, a peak and a step': () =>
    [(x: number) => Math.sqrt(x), (x: number) => 1 / (1e-3 + (x - 0.3) * (x - 0.3)), (x: number) => (x < 0.37 ? 0 : 1)].map((f) => {
      const o = integrate(f, 0, 1, { maxPanels: 40 });
      return [o.status, o.value, o.iterations];
    }),
  'a fit of a peak, in pieces': () => {
    const { knots, pieces } = fitPiecewise((x) => 1 / (1 + 25 * x * x), -1, 2, { tolerance: 1e-4, maxDegree: 16 });
    return [knots, pieces.map((p) => p.length), chebyshevFit((x) => 1 / (3 + x), 0, 2, 5)];
  },
  'a stream of each kind': () => {
    const [u, b, w, c, p, n, e, g, s, i] = ['u', 'b', 'w', 'c', 'p', 'n', 'e', 'g', 's', 'i'].map(stream) as [RandomStream, RandomStream, RandomStream, RandomStream, RandomStream, RandomStream, RandomStream, RandomStream, RandomStream, RandomStream]; // prettier-ignore
    return {
      uniform: eight(() => u.next()),
      between: eight(() => b.between(-3, 5)),
      whole: eight(() => w.whole(2, 9)),
      chance: eight(() => c.chance(0.4)),
      pick: eight(() => p.pick(['a', 'b', 'c', 'd'])),
      normal: eight(() => n.normal(3, 2)),
      exponential: eight(() => e.exponential(40)),
      gamma: Array.from({ length: 60 }, () => g.gamma(2.5, 1.5)),
      slim: Array.from({ length: 30 }, () => s.gamma(0.4, 1.5)),
      none: s.gamma(0, 1),
      ids: [i.uuid(), i.uuid()],
      nameless: new RandomStream(11).next(),
    };
  },
});
