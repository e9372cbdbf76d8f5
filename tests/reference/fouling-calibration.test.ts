import { describe, expect, it } from 'vitest';
import { calibrate, chiSquare } from '../support/fouling-calibration';

/**
 * Calibration by simulation (Talts, Betancourt, Simpson, Vehtari & Gelman 2018, "Validating Bayesian inference
 * algorithms with simulation-based calibration"): truths drawn from the prior must rank uniformly among posterior draws.
 */
const FLEETS = 1000;
const result = calibrate(11, FLEETS);

// Chi-square with 19 degrees of freedom: beyond 43.82 once in a thousand (tables in any handbook, from memory).
const BINS = 20;
const RARE = 43.82;

describe('over 1,000 small fleets drawn from the model', () => {
  it.each(['rate', 'deposit', 'restored', 'crossing45', 'crossing60'] as const)(
    'ranks of the %s are uniform',
    (what) => {
      expect(result.ranks[what]).toHaveLength(FLEETS);
      expect(chiSquare(result.ranks[what], BINS)).toBeLessThan(RARE);
    },
  );

  it('80 % bands of the forecast date hold 77 to 83 %', () => {
    expect(result.bands.length).toBeGreaterThan(4 * FLEETS);
    const share = result.bands.filter(Boolean).length / result.bands.length;
    expect(share).toBeGreaterThan(0.77);
    expect(share).toBeLessThan(0.83);
  });

  it('would notice a belief that is too sure of itself', () => {
    const tight = result.ranks.rate.map((r) => Math.min(1, Math.max(0, 0.5 + 1.35 * (r - 0.5))));
    expect(chiSquare(tight, BINS)).toBeGreaterThan(RARE);
  });
});
