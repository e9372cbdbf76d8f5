import { TAG_FORM } from '../equipment/limits';
import type { UnitField } from '../equipment/field';
import { keysOf } from '../typed/closed-set';
import { unitField, type UnitKey, type UnitValues } from '../equipment/unit-fields';
import { refrigerantId } from '../refrigerants/naming';
import * as cells from './cells';
import { unitColumn, type Column } from './column';
import { measuredIn, yes } from './measured';

type Value = NonNullable<UnitValues[UnitKey]>;
type Reading = { required?: boolean; read: (text: string) => cells.Cell<Value>; write?: (value: never) => string };

function refrigerant(text: string): cells.Cell<string> {
  const id = refrigerantId(text);
  return id
    ? { value: id }
    : { problem: 'Is not a refrigerant on our list. Write it like R404A; the list stands with the columns. Or unknown.' };
}

function tag(text: string): cells.Cell<string> {
  const value = text.toUpperCase();
  return TAG_FORM.test(value) ? { value } : { problem: 'Tags take 2 to 40 letters, digits, dots, dashes and underscores.' };
}

function readingOf(field: Exclude<UnitField, { type: 'measured' }>): Reading {
  switch (field.type) {
    case 'tag':
      return { read: tag };
    case 'refrigerant':
      return { required: true, read: refrigerant };
    case 'choice':
      return { required: field.empty === 'required', read: cells.oneOf(keysOf(field.labels), field.labels) };
    case 'tick':
    case 'maybe':
      return { read: cells.yesNo, write: yes };
    case 'text':
      return { required: field.required, read: cells.freeText(field.max) };
  }
}

/** The columns that a unit's field has in the file. The table holds that a field's own values come out of its own cell. */
export function unitColumns(key: UnitKey): Column[] {
  const field = unitField(key);
  const { header, about } = field.csv;
  const column = (name: string, o: object) => unitColumn(name, key, o as Parameters<typeof unitColumn<typeof key>>[2]);
  return field.type === 'measured'
    ? measuredIn(field.measure, field.span, header, about).map(([name, o]) => column(name, o))
    : [column(header, { about, ...readingOf(field) })];
}
