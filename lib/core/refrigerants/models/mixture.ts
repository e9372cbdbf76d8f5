import { DEPARTURES } from '../data/mixtures/departures';
import { PAIRS } from '../data/mixtures/pairs';
import type { FluidEquation, IdealTerms, PowerTerm, ResidualTerms } from './equation';
import { MIXTURE_R } from './gas-constant';
import type { HelmholtzParts } from './helmholtz';
import { pairOf, Reducing } from './reducing';
import { Residual } from './residual';

type Departure = { i: number; j: number; F: number; residual: Residual; power: readonly PowerTerm[] };

/**
 * The multi-fluid mixture model: pure equations at the mixture's τ and δ, plus departure functions of the pairs.
 * Source: Lemmon & Tillner-Roth 1999, Fluid Phase Equilib. 165, 1; Kunz & Wagner 2012, J. Chem. Eng. Data 57, 3032.
 */
export class Mixture {
  readonly reducing: Reducing;
  /** At the state last evaluated: α^r and δα^r_δ, and ∂(nα^r)/∂n_i, that is ln(f_i/(x_i·ρRT)). */
  a00 = 0;
  a01 = 0;
  readonly fugacity: Float64Array;
  private readonly pure: Residual[];
  private readonly departures: Departure[];
  private readonly slope: Float64Array;

  constructor(readonly components: readonly FluidEquation[]) {
    this.reducing = new Reducing(components, PAIRS);
    this.pure = components.map((c) => new Residual(c));
    this.departures = departuresOf(components);
    this.fugacity = new Float64Array(components.length);
    this.slope = new Float64Array(components.length);
  }

  /** kg/mol */
  molarMass(x: ArrayLike<number>): number {
    return this.components.reduce((sum, c, i) => sum + c.molarMass * x[i]!, 0);
  }

  /** Evaluates at T (K), rho (mol/m³) and composition x; returns the pressure in Pa. */
  evaluate(T: number, rho: number, x: ArrayLike<number>): number {
    const { reducing, slope, fugacity } = this;
    reducing.setComposition(x);
    const tau = reducing.T / T;
    const delta = rho * reducing.v;
    let a00 = 0;
    let a01 = 0;
    let a10 = 0;
    for (let i = 0; i < this.pure.length; i++) {
      const r = this.pure[i]!;
      r.setTau(tau);
      r.evaluate(delta);
      a00 += x[i]! * r.a00;
      a01 += x[i]! * r.a01;
      a10 += x[i]! * r.a10;
      slope[i] = r.a00;
    }
    for (const { i, j, F, residual: r } of this.departures) {
      r.setTau(tau);
      r.evaluate(delta);
      const w = x[i]! * x[j]! * F;
      a00 += w * r.a00;
      a01 += w * r.a01;
      a10 += w * r.a10;
      slope[i]! += x[j]! * F * r.a00;
      slope[j]! += x[i]! * F * r.a00;
    }
    let mean = 0;
    for (let i = 0; i < slope.length; i++) mean += x[i]! * slope[i]!;
    for (let i = 0; i < slope.length; i++) {
      fugacity[i] = a00 + a01 * (1 + reducing.nV[i]! / reducing.v) + (a10 * reducing.nT[i]!) / reducing.T + slope[i]! - mean;
    }
    this.a00 = a00;
    this.a01 = a01;
    return rho * MIXTURE_R * T * (1 + a01);
  }

  /** The mixture at a composition that does not change, as one fluid: all terms in its own τ and δ. */
  atComposition(x: ArrayLike<number>): HelmholtzParts {
    this.reducing.setComposition(x);
    const T = this.reducing.T;
    const terms: { power: number[][]; gaussian: number[][]; lemmon: number[][]; nonAnalytic: number[][] } = {
      power: [],
      gaussian: [],
      lemmon: [],
      nonAnalytic: [],
    };
    const scaled = (list: readonly (readonly number[])[] | undefined, w: number) => (list ?? []).map(([n, ...rest]) => [n! * w, ...rest]);
    this.components.forEach((c, i) => {
      for (const kind of Object.keys(terms) as (keyof ResidualTerms)[]) terms[kind].push(...scaled(c[kind], x[i]!));
    });
    for (const { i, j, F, power } of this.departures) terms.power.push(...scaled(power, F * x[i]! * x[j]!));
    return {
      ...terms,
      molarMass: this.molarMass(x),
      gasConstant: MIXTURE_R,
      reducing: { T, rho: 1 / this.reducing.v },
      ideal: idealAt(this.components, x, T),
    };
  }
}

function departuresOf(components: readonly FluidEquation[]): Departure[] {
  const found: Departure[] = [];
  for (let i = 0; i < components.length; i++)
    for (let j = i + 1; j < components.length; j++) {
      const pair = pairOf(PAIRS, components[i]!.id, components[j]!.id);
      const power = pair.departure === undefined ? undefined : DEPARTURES[pair.departure]?.power;
      if (power) found.push({ i, j, F: pair.F ?? 1, residual: new Residual({ power }), power });
    }
  return found;
}

/** Ideal-gas terms, each component's own τ_i = T_i/T restated in the mixture's τ. */
function idealAt(components: readonly FluidEquation[], x: ArrayLike<number>, T: number): IdealTerms {
  const power: number[][] = [];
  const einstein: number[][] = [];
  const cpPolynomial: number[][] = [];
  let logTau = 0;
  components.forEach((c, i) => {
    const w = x[i]!;
    const ratio = c.reducing.T / T;
    logTau += w * c.ideal.logTau;
    for (const [n, t] of (c.ideal.power ?? []) as [number, number][]) power.push([w * n * Math.pow(ratio, t), t]);
    for (const [n, t] of (c.ideal.einstein ?? []) as [number, number][]) einstein.push([w * n, t * ratio]);
    for (const [n, t] of (c.ideal.cpPolynomial ?? []) as [number, number][]) cpPolynomial.push([w * n, t]);
  });
  return { logTau, power, einstein, cpPolynomial };
}
