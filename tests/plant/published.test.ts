import { describe, expect, it } from 'vitest';
import { percentPerK, publishedFaults, publishedMaps, SLOPE_AT } from '../reference/published-maps';
import { build, DESIGN_AIR_K } from './world/build';
import { Chance } from './world/chance';
import { compress } from './world/compressor';
import { lnPressureAt, sat } from './world/fluid';
import { SOUND, type Faults } from './world/machine';
import { run, type Running } from './world/solve';
import { TEMPLATES } from './world/templates';

const machines = (fits: (t: (typeof TEMPLATES)[number]) => boolean, each = 4) =>
  TEMPLATES.filter(fits).flatMap((t) => Array.from({ length: each }, (_, i) => ({ t, ...build(t, new Chance('published', t.name, i)) })));
const mean = (xs: readonly number[]) => xs.reduce((a, b) => a + b, 0) / xs.length;

/** Capacity and power per kelvin of condensing of the plant's compressors, at the suction of the published maps. */
function slopes(fits: (t: (typeof TEMPLATES)[number]) => boolean, suctionC: number) {
  const found = machines(fits).map(({ machine: m }) => {
    const f = m.fluid;
    const xe = lnPressureAt(f, f.dewK, suctionC + 273.15);
    const h1 = sat(f, f.hg, xe) + sat(f, f.cpG, xe) * (291.45 - sat(f, f.dewK, xe));
    const at = (dischargeC: number) => {
      const x = lnPressureAt(f, f.dewK, dischargeC + 273.15);
      const r = compress(f, m.compressor, xe, h1, x, 305);
      return { capacity: r.flow * (h1 - sat(f, f.hf, x)), power: r.powerW };
    };
    return { capacity: percentPerK((c) => at(c).capacity), power: percentPerK((c) => at(c).power) };
  });
  return { capacity: mean(found.map((s) => s.capacity)), power: mean(found.map((s) => s.power)) };
}

const published = (refrigerant: string, application: 'medium' | 'low', what: string) =>
  mean(
    publishedMaps()
      .filter((m) => m.refrigerant === refrigerant && m.application === application && m.what === what)
      .map((m) => percentPerK((c) => m.at(SLOPE_AT.suction[application], c))),
  );

describe('the plant beside published tables', () => {
  it('has compressors that change with condensing as makers tell: R-134a, and R-404A as the R-502 that it came after', () => {
    const medium = slopes((t) => t.refrigerant === 'R134a', SLOPE_AT.suction.medium);
    expect(Math.abs(medium.power - published('R134a', 'medium', 'power'))).toBeLessThan(0.3);
    expect(Math.abs(medium.capacity - published('R134a', 'medium', 'capacity'))).toBeLessThan(0.4);
    const low = slopes((t) => t.refrigerant === 'R404A' && t.application === 'low', SLOPE_AT.suction.low);
    expect(Math.abs(low.power - published('R502', 'low', 'power'))).toBeLessThan(0.3);
    expect(Math.abs(low.capacity - published('R502', 'low', 'capacity'))).toBeLessThan(0.6);
  });

  it('moves with faults as measured rooftop units move (Cheung and Braun 2015)', () => {
    const point = { wetBulbC: 19.4, outdoorC: 35, cop: 4.2 };
    const measured = (fault: string, what: string, level: number) =>
      publishedFaults()
        .find((f) => f.fault === fault && f.what === what)
        ?.ratio(level, point) ?? NaN;
    const coolers = machines((t) => t.kind === 'walk_in_cooler', 3);
    const ratios = (faults: Partial<Faults>) => {
      const pairs = coolers.flatMap(({ machine: m, t }) => {
        const around = { roomK: 308.15, boxK: t.boxK };
        const [a, b] = [run(m, SOUND, around), run(m, { ...SOUND, ...faults }, around)];
        return a && b ? [{ q: b.coolingW / a.coolingW, eir: (b.powerW / b.coolingW) / (a.powerW / a.coolingW) }] : []; // prettier-ignore
      });
      return { capacity: mean(pairs.map((p) => p.q)), eir: mean(pairs.map((p) => p.eir)) };
    };
    // Flow falls to about half at this resistance of the plant's fans; a machine with a box at 2 °C and one with rooms at 27 °C
    // are not the same, so the check is of size, not of digits.
    const condenser = ratios({ resistance: 6 });
    expect(Math.abs(condenser.capacity - measured('condenser_airflow', 'capacity', 0.5))).toBeLessThan(0.12);
    expect(Math.abs(condenser.eir - measured('condenser_airflow', 'eir', 0.5))).toBeLessThan(0.2);
    const evaporator = ratios({ boxResistance: 6 });
    expect(Math.abs(evaporator.capacity - measured('evaporator_airflow', 'capacity', 0.5))).toBeLessThan(0.14);
    // Gas: little cooling lost, more power.
    const gas = ratios({ gasPa: 1e5 });
    expect(gas.capacity).toBeLessThan(1);
    expect(gas.capacity).toBeGreaterThan(0.88);
    expect(measured('non_condensable', 'capacity', 0.6)).toBeGreaterThan(0.85);
    expect(gas.eir).toBeGreaterThan(1.02);
  });

  it('follows the signs of Rossi and Braun (1997, table of rules for a fixed expansion; from memory) on capillary machines', () => {
    const tubes = machines((t) => t.expansion === 'capillary' && t.application === 'medium', 2);
    const signs = (faults: (leak: number) => Partial<Faults>, read: (r: Running) => number) => {
      const moves = tubes.flatMap(({ machine: m, t }) => {
        const around = { roomK: DESIGN_AIR_K, boxK: t.boxK };
        const [a, b] = [run(m, SOUND, around), run(m, { ...SOUND, ...faults(m.compressor.swept * 3e-4) }, around)];
        return a && b ? [Math.sign(read(b) - read(a))] : [];
      });
      return mean(moves);
    };
    const evaporating = (r: Running) => r.evaporatingK;
    const condensing = (r: Running) => r.middleK;
    const superheat = (r: Running) => r.box.superheatK;
    const low = () => ({ charge: 0.8 });
    expect(signs(low, evaporating)).toBeLessThan(-0.6);
    expect(signs(low, superheat)).toBeGreaterThan(0.6);
    expect(signs(low, condensing)).toBeLessThan(-0.6);
    const leak = (area: number) => ({ leakArea: area });
    expect(signs(leak, evaporating)).toBeGreaterThan(0.6);
    expect(signs(leak, superheat)).toBeLessThan(0);
    const fouled = () => ({ resistance: 5 });
    expect(signs(fouled, condensing)).toBeGreaterThan(0.9);
    expect(signs(fouled, evaporating)).toBeGreaterThan(0.6);
    const iced = () => ({ boxResistance: 5, boxOpen: 0.7 });
    expect(signs(iced, evaporating)).toBeLessThan(-0.9);
    expect(signs(iced, superheat)).toBeLessThan(0);
    expect(signs(iced, condensing)).toBeLessThan(0);
    const plugged = () => ({ opening: 0.7 });
    expect(signs(plugged, evaporating)).toBeLessThan(-0.6);
    expect(signs(plugged, superheat)).toBeGreaterThan(0.6);
    expect(signs(plugged, (r) => r.subcoolingK)).toBeGreaterThan(0.6);
  });
});
