/**
 * Writes lib/core/refrigerants/data/tables from the published equations:
 *   npx tsx scripts/build-refrigerant-tables.ts [id …]
 * and the lists of them from the catalogue (`--lists`: those alone).
 * Numbers are cut to what the expansions' own tolerance needs. tests/reference checks them against the solver.
 */
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { REFRIGERANT_IDS } from '../lib/core/refrigerants/catalogue';
import { buildTables } from '../checks/refrigerant-tables/build-refrigerant';
import { halved, shortNumbers } from '../checks/refrigerant-tables/as-text';
import { fileName, loadersList, tablesList } from '../checks/refrigerant-tables/lists';
import type { BranchTables, PressureTables, RefrigerantTables } from '../lib/core/refrigerants/tables/format';
import type { Piecewise } from '../lib/core/numerics/chebyshev';
import type { SurfaceTable } from '../lib/core/refrigerants/tables/surface-format';

const folder = path.join(import.meta.dirname, '../lib/core/refrigerants/data/tables');

/** Shortest decimal that is within `step` of x. */
function cut(x: number, step: number): number {
  const digits = Math.ceil(Math.log10(Math.abs(x) / step));
  return digits < 1 ? 0 : Number(x.toPrecision(Math.min(17, digits)));
}

const piecewise = (p: Piecewise, step: number): Piecewise => ({
  ...halved(p),
  pieces: p.pieces.map((c) => c.map((x) => cut(x, step))),
});
const pressures = (t: PressureTables): PressureTables => ({ lnP: piecewise(t.lnP, 2e-11), T: piecewise(t.T, 1e-8) });
const branch = (t: BranchTables, rho: number): BranchTables => ({
  rho: piecewise(t.rho, rho),
  h: piecewise(t.h, 4e-5),
  s: piecewise(t.s, 2e-7),
  inverseCp: piecewise(t.inverseCp, 2e-13),
});
const surface = (t: SurfaceTable): SurfaceTable => ({
  ...t,
  patches: t.patches.map((p) => ({ ...p, rows: p.rows.map((row) => row.map((x) => cut(x, 1e-11))) })),
});

function rounded(t: RefrigerantTables): RefrigerantTables {
  const { saturation: s, blend } = t;
  return {
    id: t.id,
    saturation: {
      ...s,
      bubble: pressures(s.bubble),
      ...(s.dew ? { dew: pressures(s.dew) } : {}),
      liquid: branch(s.liquid, 2e-7),
      vapour: branch(s.vapour, 2e-11),
    },
    ...(blend ? { blend: { ...blend, vapour: surface(blend.vapour), liquid: surface(blend.liquid) } } : {}),
  };
}

writeFileSync(path.join(folder, 'index.ts'), tablesList());
writeFileSync(path.join(folder, '../loaders.ts'), loadersList());

const wanted = process.argv.slice(2);
if (wanted.includes('--lists')) process.exit();
for (const id of REFRIGERANT_IDS) {
  if (wanted.length > 0 && !wanted.includes(id)) continue;
  // Broken into lines so that a change can be read; kept as text so that nothing is parsed before it is needed.
  const text = shortNumbers(JSON.stringify(rounded(buildTables(id))))
    .replace(/"(bubble|dew|liquid|vapour|blend|ideal|h|s|inverseCp|T|pieces|patches|rows)":(?=[[{])/g, '\n"$1":')
    .replace(/\],\[/g, '],\n[');
  writeFileSync(
    path.join(folder, `${fileName(id)}.ts`),
    `// Made by scripts/build-refrigerant-tables.ts from the published equations: do not edit.\n` +
      `// JSON of RefrigerantTables (tables/format.ts).\nexport const ${fileName(id)} = \`${text}\`;\n`,
  );
  process.stdout.write(`${id} ${text.length} characters\n`);
}
