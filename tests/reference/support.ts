import { readFileSync } from 'node:fs';
import path from 'node:path';
import Papa from 'papaparse';

const folder = path.join(import.meta.dirname, 'data');

export type Row = Record<string, string>;

/** Rows of a reference table by column name. */
export function readTable(file: string): Row[] {
  const text = readFileSync(path.join(folder, file), 'utf8');
  const { data, errors } = Papa.parse<Row>(text, { header: true, skipEmptyLines: true });
  if (errors.length > 0) throw new Error(`${file}: ${errors[0]!.message}`);
  return data;
}

/** The largest absolute difference met and how many were compared. A difference that is no number counts as infinite. */
export class Worst {
  worst = 0;
  samples = 0;

  add(difference: number): void {
    this.samples++;
    this.worst = Math.max(this.worst, Number.isFinite(difference) ? Math.abs(difference) : Infinity);
  }
}
