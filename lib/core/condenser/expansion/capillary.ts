import { chebyshev, type Curve } from '../fluid/chebyshev';
import type { QuickFluid } from '../fluid/quick-fluid';

/**
 * Choked flow through an adiabatic capillary tube by Choi, Kim and Chung 2004 (Appl. Therm. Eng. 24:29–41), as ratios
 * for one tube, so that its bore and length drop out:
 * ṁ ∝ √(ρf·p)·(p − p_sat)^−0.315·ΔT^0.369·(ρf/ρg)^0.034·(σ/p)^−0.458·(ρf·h_fg/p_sat)^0.376.
 * Surface tension by Guggenheim's (1 − T/Tc)^1.26; the viscosity group, power 0.04, is left out.
 */
const made = new WeakMap<QuickFluid, Curve>();

export function capillaryCurve(f: QuickFluid): Curve {
  const hit = made.get(f);
  if (hit) return hit;
  const curve = chebyshev(
    (tc) => {
      const bubble = tc - f.glide(tc);
      const lnP = f.lnDewP(tc);
      const lnRho = f.lnRhoLiquid(bubble);
      const latent = Math.log(f.hVapour(tc) - f.hLiquid(bubble));
      const tension = 1.26 * Math.log(Math.max(0.02, 1 - tc / f.criticalK));
      return (
        0.5 * (lnRho + lnP) - 0.315 * lnP + 0.034 * (lnRho - f.lnRhoVapour(tc)) - 0.458 * (tension - lnP) + 0.376 * (lnRho + latent - lnP)
      );
    },
    284,
    f.hiK,
    8,
  );
  made.set(f, curve);
  return curve;
}

/** ln of what subcooling adds: ΔT^0.369 over (p − p_sat)^0.315, and p_sat^−0.376, with p_sat = p·e^(−β·ΔT). */
export function subcoolingGain(subcoolingK: number, beta: number): number {
  const dT = Math.max(0, subcoolingK) + 0.5;
  return 0.369 * Math.log(dT) - 0.315 * Math.log(1 - Math.exp(-beta * dT)) + 0.376 * beta * dT;
}

/**
 * ln of what gas at the inlet takes away, by quality. The power −0.163 of quality is that of Wolf, Bittle and Pate 1995
 * (ASHRAE RP-762) for two-phase inlets; where it sets in and the linear part are judgement.
 */
export function flashLoss(quality: number): number {
  return quality <= 0 ? 0 : -0.163 * Math.log(1 + quality / 0.03) - 2 * quality;
}
