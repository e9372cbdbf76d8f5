import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadersList, tablesList } from '@/checks/refrigerant-tables/lists';
import { optionsOf } from '@/app/(tablet)/round/_lib/typed-unit';
import { unitField } from '@/lib/core/equipment/unit-fields';
import { FILED_REFRIGERANTS, safetyClassOf } from '@/lib/core/refrigerants/catalogue';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { REFRIGERANT_IDS, REFRIGERANTS, safetyOf } from '@/lib/core/refrigerants';
import { isRegistered } from '@/lib/core/refrigerants/engine';

describe('the catalogue', () => {
  it('has data for every refrigerant in it', () => {
    expect(REFRIGERANT_IDS.length).toBeGreaterThanOrEqual(27);
    for (const id of REFRIGERANT_IDS) expect(isRegistered(id), id).toBe(true);
  });

  it('is what the lists of their data were made from', () => {
    const data = resolve('lib/core/refrigerants/data');
    expect(readFileSync(join(data, 'tables/index.ts'), 'utf8')).toBe(tablesList());
    expect(readFileSync(join(data, 'loaders.ts'), 'utf8')).toBe(loadersList());
  });

  it('has compositions that add up', () => {
    for (const info of Object.values(REFRIGERANTS)) {
      if (info.kind === 'pure') expect(info.composition).toBeUndefined();
      else expect(Object.values(info.composition!).reduce((a, b) => a + b)).toBeCloseTo(1, 12);
    }
  });

  // As the equations' source files and AR4-based regulation print them, from memory for the blends.
  it.each([
    ['R134a', 1430], ['R404A', 3922], ['R410A', 2088], ['R448A', 1387], ['R449A', 1397], ['R513A', 631], ['R454C', 148],
  ])('%s warms as printed', (id, gwp) => {
    expect(Math.abs(REFRIGERANTS[id]!.gwpAR4! - gwp)).toBeLessThanOrEqual(2);
  }); // prettier-ignore

  it('says so where there is no figure', () => {
    expect(REFRIGERANTS.R600a!.gwpAR4).toBeNull();
  });
});

describe('safety', () => {
  it('warns of ignition for everything that burns', () => {
    for (const id of REFRIGERANT_IDS) {
      const safety = safetyOf(id)!;
      expect(safety.flammable).toBe(safety.safetyClass !== 'A1');
      expect(safety.cautions.some((c) => c.startsWith('No ignition source'))).toBe(safety.flammable);
      expect(safety.cautions.at(-1)).toContain('local code');
    }
    expect(safetyOf('R290')!.safetyClass).toBe('A3');
    expect(safetyOf('R454C')!.safetyClass).toBe('A2L');
  });

  it('gives no all-clear for what it does not know', () => {
    expect(safetyOf('R999')).toBeUndefined();
  });
});

describe('what still stands on nameplates', () => {
  const old = ['R401A', 'R402A', 'R408A', 'R409A', 'R422D', 'R438A'];

  it.each(old)('%s can be chosen on the tablet, and is said not to be estimated', (id) => {
    const choices = optionsOf(unitField('refrigerant')) ?? [];
    expect(choices.find((c) => c.value === id)?.label).toBe(`${refrigerantLabel(id)} (not estimated)`);
    expect(safetyClassOf(id)).toBe('A1');
  });

  it('is named by shares that make up the whole', () => {
    const named = FILED_REFRIGERANTS.flatMap((r) => (r.estimated ? [] : [r.name]));
    expect(named.length).toBeGreaterThanOrEqual(old.length);
    for (const name of named) {
      const shares = /\((.*) % by mass\)/.exec(name)?.[1]?.split('/').map(Number) ?? [];
      expect(shares.reduce((a, b) => a + b, 0)).toBeCloseTo(100, 9);
    }
  });
});
