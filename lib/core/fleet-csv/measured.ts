import type { Span } from '../equipment/limits';
import { unitsOfMeasure, type Measure } from '../measures/entry-units';
import * as cells from './cells';

/** Twelve digits bring every number back as it was to within a thousandth of a millionth. */
export const figure = (fromSi: (x: number) => number) => (value: number) => String(Number(fromSi(value).toPrecision(12)));
export const yes = (v: boolean) => (v ? 'yes' : 'no');

/** A column for each unit of a measure, the unit in its name: `charge_oz`, `charge_kg`. */
export const measuredIn = (measure: Measure, span: Span, header: string, about: string) =>
  Object.entries(unitsOfMeasure(measure)).map(
    ([unit, { label, toSi, fromSi }]) =>
      [
        `${header}_${unit.toLowerCase()}`,
        {
          about: `${about} ${label}.`,
          in: { measure, unit },
          read: cells.number(span, label, toSi, fromSi, measure),
          write: figure(fromSi),
        },
      ] as const,
  );
