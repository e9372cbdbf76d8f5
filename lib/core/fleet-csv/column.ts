import type { UnitValues } from '../equipment/unit-fields';
import type { Measure } from '../measures/entry-units';
import type { Cell } from './cells';
import type { KitchenValues, NameValues, RowValues, TaskValues } from './types';

/** A column of the file. Columns with the same `field` give the same thing in different units: a file has one of them. */
export type Column = {
  header: string;
  field: string;
  scope: 'names' | 'kitchen' | 'unit' | 'task';
  /** Whether every row must fill it. */
  required: boolean;
  about: string;
  /** Of a measured column: only the one in the reader's own unit stands in a template or an export. */
  in?: { measure: Measure; unit: string };
  /** Reads a filled cell into the row; returns what is wrong, or null. */
  take: (text: string, row: RowValues) => string | null;
  /** Writes the row's value as this column shows it. */
  put: (row: RowValues) => string;
};

type Options<T> = {
  about: string;
  required?: boolean;
  in?: Column['in'];
  read: (text: string) => Cell<T>;
  write?: (value: T) => string;
};

function make<R extends object, K extends keyof R & string>(
  scope: Column['scope'],
  part: (row: RowValues) => Partial<R>,
  header: string,
  field: K,
  o: Options<NonNullable<R[K]>>,
): Column {
  return {
    header,
    field: `${scope}.${field}`,
    scope,
    required: o.required === true,
    about: o.about,
    in: o.in,
    take(text, row) {
      const cell = o.read(text);
      if ('problem' in cell) return cell.problem;
      part(row)[field] = cell.value;
      return null;
    },
    put(row) {
      const value = part(row)[field];
      return value === undefined || value === null ? '' : o.write ? o.write(value) : String(value);
    },
  };
}

export const nameColumn = <K extends keyof NameValues & string>(header: string, field: K, o: Options<string>) =>
  make<NameValues, K>('names', (r) => r.names, header, field, o);
export const kitchenColumn = <K extends keyof KitchenValues & string>(
  header: string,
  field: K,
  o: Options<NonNullable<KitchenValues[K]>>,
) => make<KitchenValues, K>('kitchen', (r) => r.kitchen, header, field, o);
export const unitColumn = <K extends keyof UnitValues & string>(header: string, field: K, o: Options<NonNullable<UnitValues[K]>>) =>
  make<UnitValues, K>('unit', (r) => r.unit, header, field, o);

function taskPart(row: RowValues, key: string): Partial<TaskValues> {
  let part = row.tasks.get(key);
  if (!part) row.tasks.set(key, (part = {}));
  return part;
}
export const taskColumn = <K extends keyof TaskValues & string>(
  key: string,
  suffix: string,
  field: K,
  o: Options<TaskValues[K]>,
): Column => {
  const column = make<TaskValues, K>('task', (r) => taskPart(r, key), `${key}_${suffix}`, field, o);
  return { ...column, field: `task.${key}.${field}`, put: (row) => (row.tasks.has(key) ? column.put(row) : '') };
};
