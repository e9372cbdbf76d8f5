import { REFRIGERANT_IDS, REFRIGERANTS } from '../../lib/core/refrigerants/catalogue';

/** A refrigerant's id as the name of a file and of what it exports. */
export const fileName = (id: string) => id.replace(/[()]/g, '');

const MADE = '// Made by scripts/build-refrigerant-tables.ts from the catalogue: do not edit.\n';
const key = (id: string) => (/^\w+$/.test(id) ? id : `'${id}'`);

/** data/tables/index.ts: the tables of all, at once. */
export const tablesList = (): string =>
  [
    MADE.trim(),
    ...REFRIGERANT_IDS.map((id) => `import { ${fileName(id)} } from './${fileName(id)}';`),
    '',
    '/** Tables of every refrigerant by id, as JSON text. */',
    'export const TABLES: Readonly<Record<string, string>> = {',
    ...REFRIGERANT_IDS.map((id) => (key(id) === fileName(id) ? `  ${id},` : `  ${key(id)}: ${fileName(id)},`)),
    '};',
    '',
  ].join('\n');

function loader(id: string): string {
  const name = fileName(id);
  const has = REFRIGERANTS[id]?.kind !== 'blend';
  const equation = has ? `, async () => (await import('./equations/${name}')).${name}` : '';
  return `  ${key(id)}: [async () => (await import('./tables/${name}')).${name}${equation}],`;
}

/** data/loaders.ts: one at a time. One literal import each: bundlers cut a file per refrigerant only where they can read the path. */
export const loadersList = (): string =>
  [
    MADE.trim(),
    "import type { RefrigerantData } from '../engine';",
    '',
    "type Load<K extends 'tables' | 'equation'> = () => Promise<NonNullable<RefrigerantData[K]>>;",
    '',
    '/** Tables, and for a pure fluid or pseudo-pure blend its equation. */',
    "export const LOADERS: Readonly<Record<string, readonly [tables: Load<'tables'>, equation?: Load<'equation'>]>> = {",
    ...REFRIGERANT_IDS.map(loader),
    '};',
    '',
  ].join('\n');
