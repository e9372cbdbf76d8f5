import { inWords } from './in-words';
import { LEFT_OUT_MODELS, whyLeftOut } from './left-out';
import { meaningOf } from './meaning';
import { PICTURES } from './pictures';
import { modelsOf } from './schema-text';

type Column = { name: string; type: string; nullable: boolean; isEnum: boolean; pointsTo: string | null };
type Table = { name: string; columns: Column[] };

export type DescribedColumn = { column: string; type: string; mayBeEmpty: boolean; meaning: string; leftOut: string | null };
export type DescribedTable = { table: string; meaning: string; leftOut: string | null; columns: DescribedColumn[] };

/**
 * Every table of the database with what its columns mean, in the order of the schema.
 * @param schema text of `prisma/schema.prisma`, for its words
 * @param enums members of each closed set by its name
 */
export function describe(schema: string, tables: readonly Table[], enums: ReadonlyMap<string, readonly string[]>): DescribedTable[] {
  const models = modelsOf(schema);
  const place = new Map(models.map((m, i) => [m.name, i]));
  const placeOf = (name: string) => place.get(name) ?? models.length;
  return [...tables]
    .sort((a, b) => placeOf(a.name) - placeOf(b.name))
    .map((table) => {
      const model = models[placeOf(table.name)];
      return {
        table: table.name,
        meaning: model?.comment || `${inWords(table.name)}.`,
        leftOut: LEFT_OUT_MODELS[table.name] ?? null,
        columns: table.columns.map((c) => ({
          column: c.name,
          type: c.type.replaceAll('"', ''),
          mayBeEmpty: c.nullable,
          leftOut: whyLeftOut(table.name, c.name),
          meaning: meaningOf({
            name: c.name,
            comment: model?.columns.find((x) => x.name === c.name)?.comment ?? '',
            pointsTo: c.pointsTo,
            members: (c.isEnum ? enums.get(c.type.replace(/[[\]"]/g, '')) : null) ?? null,
            picture: `${table.name}.${c.name}` in PICTURES,
          }),
        })),
      };
    });
}

const cell = (text: string) => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

/** The same to read: one heading a table, one line a column. */
export function describedAsText(tables: readonly DescribedTable[], shop: string, at: string): string {
  const inIt = tables.filter((t) => t.leftOut === null);
  const out = tables.filter((t) => t.leftOut !== null);
  return [
    `# Everything of ${shop}, as of ${at}`,
    '',
    'Each table stands twice: `csv/` for a spreadsheet, `json/` with one row a line as JSON, from which a shop is made again',
    '(`npm run restore -- FILE`). Pictures are files; a row names its own. Times are UTC, dates are the kitchen’s own.',
    'In CSV an empty cell is nothing at all and `""` an empty text; lists and records are JSON; a text that a spreadsheet would',
    'run as a formula has an apostrophe before it.',
    '',
    ...inIt.flatMap((t) => [
      `## ${t.table}`,
      '',
      t.meaning,
      '',
      '| column | type | may be empty | meaning |',
      '|---|---|---|---|',
      ...t.columns.map((c) =>
        c.leftOut === null
          ? `| ${c.column} | ${c.type} | ${c.mayBeEmpty ? 'yes' : 'no'} | ${cell(c.meaning)} |`
          : `| ${c.column} | left out | | ${cell(c.leftOut)} |`,
      ),
      '',
    ]),
    '# Left out',
    '',
    ...out.map((t) => `- **${t.table}**: ${t.leftOut ?? ''}`),
    '- Long random parts of addresses in letters that were sent: they let their reader in.',
    '',
  ].join('\n');
}
