import { describe, expect, it, vi } from 'vitest';

describe('a fleet that loads its own refrigerants', () => {
  it('answers for what was loaded and only for that', async () => {
    vi.resetModules();
    const fleet = await import('@/lib/core/refrigerants/fleet');
    expect(fleet.isFailure(fleet.dewTemperature('R448A', 1e6))).toBe(true);
    expect(await fleet.loadRefrigerants(['R448A', 'R290', 'R290'])).toEqual([]);
    expect(fleet.unwrap(fleet.dewTemperature('R448A', 1e6))).toBeGreaterThan(280);
    expect(fleet.unwrap(fleet.dewTemperature('R290', 1e6))).toBeGreaterThan(290);
    expect(fleet.isFailure(fleet.dewTemperature('R134a', 1e6))).toBe(true);
  });

  it('names what it has no data for', async () => {
    const { loadRefrigerants } = await import('@/lib/core/refrigerants/fleet');
    const [missing] = await loadRefrigerants(['R999', 'R22', 'constructor']);
    expect(missing).toMatchObject({ status: 'unknown_refrigerant' });
  });

  it('has a loader for every refrigerant, with the same answers as the full set', async () => {
    vi.resetModules();
    const fleet = await import('@/lib/core/refrigerants/fleet');
    expect(await fleet.loadRefrigerants(fleet.REFRIGERANT_IDS)).toEqual([]);
    const loaded = fleet.REFRIGERANT_IDS.map((id) => fleet.unwrap(fleet.dewPressure(id, 290)));
    vi.resetModules();
    const full = await import('@/lib/core/refrigerants');
    expect(full.REFRIGERANT_IDS.map((id) => full.unwrap(full.dewPressure(id, 290)))).toEqual(loaded);
  });
});
