import { describe, expect, it } from 'vitest';
import { TABLES } from '@/lib/core/refrigerants/data/tables';
import { buildTables } from '@/checks/refrigerant-tables/build-refrigerant';
import { buildEngine } from '@/lib/core/refrigerants/engine';
import { EQUATIONS } from '@/lib/core/refrigerants/data/equations';
import type { RefrigerantTables } from '@/lib/core/refrigerants/tables/format';

// One of each kind is built anew here; tests/reference holds all of them against the solver.
describe.each(['R290', 'R404A', 'R454C'])('the committed tables of %s', (id) => {
  const committed = JSON.parse(TABLES[id]!) as RefrigerantTables;
  const fresh = buildTables(id);

  it('are what the script makes from the equations', () => {
    expect(committed.saturation.maxT).toBeCloseTo(fresh.saturation.maxT, 9);
    expect(committed.saturation.offsets.h).toBeCloseTo(fresh.saturation.offsets.h, 3);
    const [a, b] = [buildEngine(committed, EQUATIONS[id]), buildEngine(fresh, EQUATIONS[id])];
    for (let T = a.limits.minT; T < a.limits.maxSaturationT; T += 7.3) {
      expect(a.curves.bubblePressure(T) / b.curves.bubblePressure(T)).toBeCloseTo(1, 9);
      expect(a.curves.saturatedVapour(T).rho / b.curves.saturatedVapour(T).rho).toBeCloseTo(1, 9);
      expect(a.curves.saturatedLiquid(T).h).toBeCloseTo(b.curves.saturatedLiquid(T).h, 3);
    }
  });
});
