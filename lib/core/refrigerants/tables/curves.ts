import { ChebyshevCurve, type Piecewise } from '../../numerics/chebyshev';
import type { Curves } from '../engine';
import type { State } from '../types';
import type { BranchTables, SaturationTables } from './format';

class Branch {
  private readonly rho: ChebyshevCurve;
  private readonly h: ChebyshevCurve;
  private readonly s: ChebyshevCurve;
  private readonly inverseCp: ChebyshevCurve;

  constructor(
    data: BranchTables,
    private readonly logarithmic: boolean,
  ) {
    this.rho = new ChebyshevCurve(data.rho);
    this.h = new ChebyshevCurve(data.h);
    this.s = new ChebyshevCurve(data.s);
    this.inverseCp = new ChebyshevCurve(data.inverseCp);
  }

  density(u: number): number {
    const x = this.rho.value(u);
    return this.logarithmic ? Math.exp(x) : x;
  }

  state(T: number, u: number, p: number): State {
    return { T, p, rho: this.density(u), h: this.h.value(u), s: this.s.value(u), cp: 1 / this.inverseCp.value(u) };
  }
}

/** Saturation curves from Chebyshev expansions (the superancillary idea of Bell & Alpert 2021, Int. J. Thermophys. 42, 13). */
export class TableCurves implements Curves {
  private readonly anchor: number;
  private readonly bubbleLnP: ChebyshevCurve;
  private readonly dewLnP: ChebyshevCurve;
  private readonly bubbleT: ChebyshevCurve;
  private readonly dewT: ChebyshevCurve;
  private readonly liquid: Branch;
  private readonly vapour: Branch;

  constructor(tables: SaturationTables) {
    const curve = (data: Piecewise) => new ChebyshevCurve(data);
    this.anchor = tables.anchor;
    this.bubbleLnP = curve(tables.bubble.lnP);
    this.bubbleT = curve(tables.bubble.T);
    this.dewLnP = tables.dew ? curve(tables.dew.lnP) : this.bubbleLnP;
    this.dewT = tables.dew ? curve(tables.dew.T) : this.bubbleT;
    this.liquid = new Branch(tables.liquid, false);
    this.vapour = new Branch(tables.vapour, true);
  }

  bubblePressure(T: number): number {
    return Math.exp(this.bubbleLnP.value(Math.sqrt(this.anchor - T)));
  }

  dewPressure(T: number): number {
    return Math.exp(this.dewLnP.value(Math.sqrt(this.anchor - T)));
  }

  bubbleTemperature(p: number): number {
    return this.bubbleT.value(Math.log(p));
  }

  dewTemperature(p: number): number {
    return this.dewT.value(Math.log(p));
  }

  liquidDensity(T: number): number {
    return this.liquid.density(Math.sqrt(this.anchor - T));
  }

  saturatedLiquid(T: number): State {
    return this.liquid.state(T, Math.sqrt(this.anchor - T), this.bubblePressure(T));
  }

  saturatedVapour(T: number): State {
    return this.vapour.state(T, Math.sqrt(this.anchor - T), this.dewPressure(T));
  }
}
