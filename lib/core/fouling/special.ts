const SQRT_2PI = 2.5066282746310002;

export function normalPdf(x: number): number {
  return Math.exp(-0.5 * x * x) / SQRT_2PI;
}

/**
 * Φ(−a)·e^(a²/2) for a ≥ 0: the tail without its exponential. G. West 2005, "Better approximations to cumulative
 * normal functions" (after Hart 1968), near 1e-15.
 */
export function scaledTail(a: number): number {
  if (a >= 7.07106781186547) return 1 / (a + 1 / (a + 2 / (a + 3 / (a + 4 / (a + 0.65))))) / SQRT_2PI;
  let b = 3.52624965998911e-2 * a + 0.700383064443688;
  b = b * a + 6.37396220353165;
  b = b * a + 33.912866078383;
  b = b * a + 112.079291497871;
  b = b * a + 221.213596169931;
  b = b * a + 220.206867912376;
  let c = 8.83883476483184e-2 * a + 1.75566716318264;
  c = c * a + 16.064177579207;
  c = c * a + 86.7807322029461;
  c = c * a + 296.564248779674;
  c = c * a + 637.333633378831;
  c = c * a + 793.826512519948;
  c = c * a + 440.413735824752;
  return b / c;
}

/** Standard normal distribution function. */
export function normalCdf(x: number): number {
  const a = x < 0 ? -x : x;
  if (a > 37) return x > 0 ? 1 : 0;
  const tail = Math.exp(-0.5 * a * a) * scaledTail(a);
  return x > 0 ? 1 - tail : tail;
}

/** ln of the normal distribution function, safe far into the lower tail. */
export function logNormalCdf(x: number): number {
  if (x > -8) return Math.log(normalCdf(x));
  return -0.5 * x * x + Math.log(scaledTail(-x));
}

const LANCZOS = [
  676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905, -0.13857109526572012,
  9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** ln Γ(x), x > 0 (Lanczos, g = 7). */
export function lnGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - lnGamma(1 - x);
  const z = x - 1;
  let sum = 0.99999999999980993;
  LANCZOS.forEach((c, i) => (sum += c / (z + i + 1)));
  const t = z + 7.5;
  return 0.9189385332046727 + (z + 0.5) * Math.log(t) - t + Math.log(sum);
}

/** Q(a, x) = Γ(a, x)/Γ(a), the upper regularised incomplete gamma function: series or Lentz's continued fraction. */
export function gammaQ(a: number, x: number): number {
  if (!(a > 0) || !(x >= 0)) return NaN;
  if (x === 0) return 1;
  const front = Math.exp(-x + a * Math.log(x) - lnGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = a + 1; n < a + 1000; n++) {
      term *= x / n;
      sum += term;
      if (term < sum * 1e-16) break;
    }
    return 1 - sum * front;
  }
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let h = d;
  for (let i = 1; i < 1000; i++) {
    const an = -i * (i - a);
    b += 2;
    d = 1 / (an * d + b || 1e-300);
    c = b + an / c || 1e-300;
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return front * h;
}
