import type { Outcome } from './outcome';

// Abscissae and weights of the 15-point Kronrod rule and its 7-point Gauss rule on [−1, 1] (Piessens et al. 1983, QUADPACK).
const NODES = [
  0.991455371120812639206854697526329, 0.949107912342758524526189684047851, 0.864864423359769072789712788640926,
  0.741531185599394439863864773280788, 0.58608723546769113029414483825873, 0.405845151377397166906606412076961,
  0.207784955007898467600689403773245, 0,
];
const KRONROD = [
  0.02293532201052922496373200805897, 0.063092092629978553290700663189204, 0.104790010322250183839876322541518,
  0.140653259715525918745189590510238, 0.16900472663926790282829543382461, 0.190350578064785409913256402421014,
  0.204432940075298892414161999234649, 0.209482141084727828012999174891714,
];
const GAUSS = [0, 0.129484966168869693270611432679082, 0, 0.27970539148927666790146777142378, 0,
  0.381830050505118944950369775488975, 0, 0.417959183673469387755102040816327]; // prettier-ignore

function panel(f: (x: number) => number, a: number, b: number): { value: number; error: number } {
  const centre = (a + b) / 2;
  const half = (b - a) / 2;
  let kronrod = 0;
  let gauss = 0;
  for (let i = 0; i < NODES.length; i++) {
    const x = half * NODES[i]!;
    const y = NODES[i] === 0 ? f(centre) : f(centre - x) + f(centre + x);
    kronrod += KRONROD[i]! * y;
    gauss += GAUSS[i]! * y;
  }
  return { value: kronrod * half, error: Math.abs((kronrod - gauss) * half) };
}

/**
 * ∫f from a to b by adaptive Gauss–Kronrod halving. The residual is the estimated absolute error; iterations count panels.
 */
export function integrate(
  f: (x: number) => number,
  a: number,
  b: number,
  options: { absolute?: number; relative?: number; maxPanels?: number } = {},
): Outcome {
  const absolute = options.absolute ?? 1e-12;
  const relative = options.relative ?? 1e-10;
  const limit = options.maxPanels ?? 500;
  const panels = [{ a, b, ...panel(f, a, b) }];
  for (;;) {
    const value = panels.reduce((sum, x) => sum + x.value, 0);
    const residual = panels.reduce((sum, x) => sum + x.error, 0);
    const done = residual <= Math.max(absolute, relative * Math.abs(value));
    if (done) return { status: 'converged', value, residual, iterations: panels.length };
    if (panels.length >= limit || !Number.isFinite(value)) return { status: 'not_converged', value, residual, iterations: panels.length };
    panels.sort((x, y) => x.error - y.error);
    const worst = panels.pop()!;
    const middle = (worst.a + worst.b) / 2;
    panels.push({ a: worst.a, b: middle, ...panel(f, worst.a, middle) });
    panels.push({ a: middle, b: worst.b, ...panel(f, middle, worst.b) });
  }
}
