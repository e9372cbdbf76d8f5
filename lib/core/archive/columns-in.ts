import { LETTER_COLUMNS, whyLeftOut } from './left-out';
import { PICTURES } from './pictures';

export type ColumnToWrite = { name: string; type: string; isArray: boolean };

const quoted = (name: string) => `"${name.replaceAll('"', '""')}"`;

/** Addresses in letters that let their reader in: everything long and random in them. */
const NO_ADDRESS = `'[A-Za-z0-9_-]{40,}', '(left out)', 'g'`;

/** As JSON has it: the value itself, or the name of its file. SQL over the table's own columns; null where it is left out. */
export function jsonColumn(model: string, { name }: ColumnToWrite): string | null {
  if (whyLeftOut(model, name) !== null) return null;
  const path = PICTURES[`${model}.${name}`];
  if (path) return `CASE WHEN ${quoted(name)} IS NULL THEN NULL ELSE ${path} END AS ${quoted(name)}`;
  if (LETTER_COLUMNS.has(`${model}.${name}`)) return `regexp_replace(${quoted(name)}, ${NO_ADDRESS}) AS ${quoted(name)}`;
  return quoted(name);
}

/**
 * The same for a spreadsheet: times and truths as JSON writes them, lists and records as JSON, and a text that a
 * spreadsheet would run as a formula with an apostrophe before it (as `guarded` of fleet-csv has it).
 */
export function csvColumn(model: string, column: ColumnToWrite): string | null {
  const json = jsonColumn(model, column);
  if (json === null || json !== quoted(column.name)) return json;
  const { type, isArray, name } = column;
  if (isArray) return `to_json(${json})::text AS ${json}`;
  if (type === 'boolean') return `${json}::text AS ${json}`;
  if (type.startsWith('timestamp')) return `to_json(${json}) #>> '{}' AS ${json}`;
  if (type === 'text')
    return `CASE WHEN ${json} ~ '^''*[=+\\-@\\t\\r]' AND ${json} !~* '^[+-]?[0-9.]+(e[+-]?[0-9]+)?$' THEN '''' || ${json} ELSE ${json} END AS ${quoted(name)}`;
  return json;
}
