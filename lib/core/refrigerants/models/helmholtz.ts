import type { FluidEquation, IdealTerms, ResidualTerms } from './equation';
import { Ideal } from './ideal';
import type { ResidualSums } from './non-analytic';
import { Residual } from './residual';
import type { State } from '../types';

export type HelmholtzParts = ResidualTerms & {
  molarMass: number;
  gasConstant: number;
  reducing: { T: number; rho: number };
  ideal: IdealTerms;
};

/** Any source of αʳ and its reduced derivatives: a published equation's terms, or an expansion of them. */
export type ResidualModel = ResidualSums & {
  setTau(tau: number): void;
  slope(delta: number): void;
  evaluate(delta: number): void;
  virial(): number;
  /** Highest δ at which it holds at the τ last set. */
  highestDelta(): number;
};

/**
 * A fluid of fixed composition as one Helmholtz energy α(τ, δ): every single-phase property is a derivative of it.
 * Densities inside are reduced (δ); what leaves is SI by mass. Enthalpy and entropy carry the reference offsets.
 */
export class Helmholtz {
  readonly residual: ResidualModel;
  private readonly ideal: Ideal;
  /** J/(kg·K) */
  readonly R: number;
  readonly reducingT: number;
  /** kg/m³ */
  readonly reducingRho: number;
  /** Added to h (J/kg) and s (J/(kg·K)): set them so that the IIR reference state holds. */
  enthalpyOffset = 0;
  entropyOffset = 0;

  constructor(parts: HelmholtzParts | FluidEquation, residual?: ResidualModel) {
    this.residual = residual ?? new Residual(parts);
    this.ideal = new Ideal(parts.ideal, parts.reducing.T);
    this.R = parts.gasConstant / parts.molarMass;
    this.reducingT = parts.reducing.T;
    this.reducingRho = parts.reducing.rho * parts.molarMass;
  }

  /** Pa, from K and kg/m³. */
  pressure(T: number, rho: number): number {
    this.residual.setTau(this.reducingT / T);
    this.residual.slope(rho / this.reducingRho);
    return rho * this.R * T * (1 + this.residual.a01);
  }

  /** Density (kg/m³) up to which the model holds at T (K). */
  highestDensity(T: number): number {
    this.residual.setTau(this.reducingT / T);
    return this.residual.highestDelta() * this.reducingRho;
  }

  /** (∂p/∂ρ)_T at the density last given to `pressure`, Pa·m³/kg. */
  pressureSlope(T: number): number {
    return this.R * T * (1 + 2 * this.residual.a01 + this.residual.a02);
  }

  /** Evaluates every derivative at T (K) and rho (kg/m³) for the readers below. */
  at(T: number, rho: number): void {
    const tau = this.reducingT / T;
    this.residual.setTau(tau);
    this.ideal.setTau(tau);
    this.residual.evaluate(rho / this.reducingRho);
  }

  state(T: number, rho: number): State {
    this.at(T, rho);
    return {
      T,
      p: rho * this.R * T * (1 + this.residual.a01),
      rho,
      h: this.enthalpy(T),
      s: this.entropy(rho),
      cp: this.isobaricHeat(),
    };
  }

  enthalpy(T: number): number {
    const { residual: r, ideal } = this;
    return this.R * T * (1 + ideal.i1 + r.a10 + r.a01) + this.enthalpyOffset;
  }

  entropy(rho: number): number {
    const { residual: r, ideal } = this;
    return this.R * (ideal.i1 + r.a10 - ideal.i0 - r.a00 - Math.log(rho / this.reducingRho)) + this.entropyOffset;
  }

  isochoricHeat(): number {
    return -this.R * (this.ideal.i2 + this.residual.a20);
  }

  isobaricHeat(): number {
    const { residual: r } = this;
    const x = 1 + r.a01 - r.a11;
    return this.isochoricHeat() + (this.R * x * x) / (1 + 2 * r.a01 + r.a02);
  }

  /** (∂p/∂T)_ρ in Pa/K at the state last evaluated. */
  thermalPressure(rho: number): number {
    return rho * this.R * (1 + this.residual.a01 - this.residual.a11);
  }

  /** Residual Gibbs energy over RT plus ln δ: equal in both phases of a pure fluid at equilibrium. */
  reducedGibbs(delta: number): number {
    return this.residual.a00 + this.residual.a01 + Math.log(delta);
  }
}
