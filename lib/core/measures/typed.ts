import { plainMarks } from '../wording/plain-text';
import { MEASURES, type Measure } from './entry-units';
import { typedNumber } from './typed-number';

/**
 * A number as it stands in somebody's file: as people type it (`typedNumber`), or 1.400,5 with both marks the other way round, or
 * 2.5e-7 as programs write it. Null where it is none.
 */
export function readFigure(text: string): number | null {
  const plain = plainMarks(text).trim().replace(/^–/, '-');
  if (/^[+-]?\d+(\.\d+)?e[+-]?\d+$/i.test(plain)) return Number(plain);
  if (/^[+−-]?[1-9]\d{0,2}(\.\d{3})+,\d+$/.test(plain)) return typedNumber(plain.replaceAll('.', ''));
  return typedNumber(plain);
}

const { temperature, difference, pressure, mass, length, power } = MEASURES;
const same = (x: number) => x;

/** What people write for units, in small letters and without a point at the end. */
const WORDS: Record<Measure, readonly (readonly [form: RegExp, toSi: (x: number) => number])[]> = {
  temperature: [
    [/^[°º]? ?f$|^(deg(rees?)?\.? ?)?f(ahrenheit)?$/, temperature.F.toSi],
    [/^[°º]? ?c$|^(deg(rees?)?\.? ?)?c(elsius|entigrade)?$/, temperature.C.toSi],
    [/^k(elvins?)?$/, same],
  ],
  difference: [
    [/^[°º]? ?f$|^(deg(rees?)?\.? ?)?f(ahrenheit)?$/, difference.F.toSi],
    [/^[°º]? ?c$|^(deg(rees?)?\.? ?)?c(elsius)?$|^k(elvins?)?$/, same],
  ],
  // Pressures of a machine are read off a gauge.
  pressure: [
    [/^psi ?g?$/, pressure.psig.toSi],
    [/^bars?( ?g)?$/, pressure.bar.toSi],
    [/^kpa( ?g)?$/, (x) => x * 1e3],
    [/^mpa( ?g)?$/, (x) => x * 1e6],
  ],
  mass: [
    [/^(lbs?|pounds?|#)$/, mass.lb.toSi],
    [/^(ozs?|ounces?)$/, mass.oz.toSi],
    [/^(kgs?|kilos?|kilograms?)$/, mass.kg.toSi],
    [/^(g|gr|grams?)$/, mass.g.toSi],
  ],
  length: [
    [/^(ft|feet|foot|['’′])$/, length.ft.toSi],
    [/^m(et(er|re)s?)?$/, same],
  ],
  power: [
    [/^btus?( ?\/ ?hr?|h)?$/, power.btuh.toSi],
    [/^w(atts?)?$/, same],
    [/^kw$/, (x) => x * 1e3],
  ],
  duration: [
    [/^h(rs?|ours?)?$/, same],
    [/^min(ute)?s?$/, (x) => x / 60],
  ],
};

/** How a unit of a measure is turned to SI, by a word for it; null where it is none of that measure. */
export function unitNamed(measure: Measure, word: string): ((x: number) => number) | null {
  const plain = plainMarks(word).trim().toLowerCase().replace(/\.$/, '');
  return WORDS[measure].find(([form]) => form.test(plain))?.[1] ?? null;
}

/** A degree sign that does not say of which scale. */
const NO_UNIT = /^([°º]|deg(rees?)?\.?)?$/i;

/** "3", "3 °C", "38F", "150 psi": the number, and how it is turned to SI where it names its unit. Null where it is no such measure. */
export function readMeasure(measure: Measure, text: string): { figure: number; toSi: ((x: number) => number) | null } | null {
  const plain = plainMarks(text).trim();
  const [, number = '', word = ''] = /^(.*\d\.?)\s*(\D*)$/s.exec(plain) ?? [];
  const figure = readFigure(number);
  if (figure === null) return null;
  if (word === '' || (measure === 'temperature' && NO_UNIT.test(word))) return { figure, toSi: null };
  const toSi = unitNamed(measure, word);
  return toSi && { figure, toSi };
}
