import { describe, expect, it } from 'vitest';
import { estimate, type EstimateOk, type Figure } from '@/lib/core/condenser';
import { balance } from '@/lib/core/condenser/machine/balance';
import { RandomStream } from '@/lib/core/numerics/random';
import { HOT_DAY, simulate, type Simulated } from '../../support/condenser-simulation';

/** Share of truths inside their band, and how many there were. */
class Coverage {
  private inside = 0;
  count = 0;
  add(figure: Figure, truth: number): void {
    this.count++;
    if (truth >= figure.lo && truth <= figure.hi) this.inside++;
  }
  get share(): number {
    return this.inside / this.count;
  }
}

const conditionsOf = (s: Simulated) => ({ ...HOT_DAY, boxK: s.unit.boxSetPointK });

function estimates(random: RandomStream, n: number, visit: (e: EstimateOk, s: Simulated) => void): number {
  let said = 0;
  for (let i = 0; i < n; i++) {
    const s = simulate(random);
    const e = estimate(s.unit, s.reading, s.baseline, conditionsOf(s));
    if (e.status !== 'ok') continue;
    said++;
    visit(e, s);
  }
  return said;
}

describe('the 80 % band over simulated readings with known truth', () => {
  it('holds 77 to 83 % of 10,000: condensing, rise, clean rise, conductance lost', { timeout: 300_000 }, () => {
    const found = { condensing: new Coverage(), rise: new Coverage(), cleanRise: new Coverage(), lost: new Coverage() };
    const said = estimates(new RandomStream(1, 'bands'), 10_000, (e, s) => {
      found.condensing.add(e.condensingK, s.state.condensingK);
      found.rise.add(e.riseK, s.state.riseK);
      found.cleanRise.add(e.cleanRiseK, s.state.heatRejectedW / s.cleanConductance);
      found.lost.add(e.conductanceLost, 1 - s.conductance / s.cleanConductance);
    });
    expect(said).toBeGreaterThan(9_900);
    for (const [name, c] of Object.entries(found)) {
      expect(c.share, name).toBeGreaterThan(0.77);
      expect(c.share, name).toBeLessThan(0.83);
    }
  });

  it('holds about as much of what is foretold for a hot day', { timeout: 300_000 }, () => {
    const found = {
      head: new Coverage(),
      cleanHead: new Coverage(),
      discharge: new Coverage(),
      cooling: new Coverage(),
    };
    estimates(new RandomStream(2, 'hot day'), 1_000, (e, s) => {
      const at = { airK: HOT_DAY.hotDayAirK, boxK: s.unit.boxSetPointK };
      const now = balance(s.truth, s.conductance, at);
      const clean = balance(s.truth, s.cleanConductance, at);
      if (now.status !== 'ok' || clean.status !== 'ok' || !e.coolingLostHotDay) return;
      found.head.add(e.headHotDayPaGauge!.now, now.headPaGauge);
      found.cleanHead.add(e.headHotDayPaGauge!.clean, clean.headPaGauge);
      found.discharge.add(e.dischargeHotDayK!.now, now.dischargeLineK);
      found.cooling.add(e.coolingLostHotDay, 1 - now.coolingW / clean.coolingW);
    });
    // The spread of typical constants enters here by rule of thumb, so the promise is looser: 74 to 89 %.
    for (const [name, c] of Object.entries(found)) {
      expect(c.count, name).toBeGreaterThan(900);
      expect(c.share, name).toBeGreaterThan(0.74);
      expect(c.share, name).toBeLessThan(0.89);
    }
  });
});

describe('what a visit is told', () => {
  it('tells a clean unit to be cleaned in under 5 % of visits, 1 % gauge and 1 °F clamp', { timeout: 120_000 }, () => {
    const told = (baselineSd: number | undefined, seed: number) => {
      const random = new RandomStream(seed, 'clean');
      let cleaning = 0;
      const visits = 2_000;
      for (let i = 0; i < visits; i++) {
        const s = simulate(random, { lost: [0, 0], ...(baselineSd === undefined ? {} : { baselineSd }) });
        if (estimate(s.unit, s.reading, s.baseline, conditionsOf(s)).verdict === 'clean_it') cleaning++;
      }
      return cleaning / visits;
    };
    expect(told(0.03, 11)).toBeLessThan(0.05);
    expect(told(undefined, 12)).toBeLessThan(0.05);
  });

  it('tells most units that lost half their conductance to be cleaned', { timeout: 60_000 }, () => {
    const random = new RandomStream(13, 'fouled');
    let cleaning = 0;
    for (let i = 0; i < 300; i++) {
      const s = simulate(random, { lost: [0.5, 0.5], baselineSd: 0.05 });
      if (estimate(s.unit, s.reading, s.baseline, conditionsOf(s)).verdict === 'clean_it') cleaning++;
    }
    expect(cleaning / 300).toBeGreaterThan(0.9);
  });
});
