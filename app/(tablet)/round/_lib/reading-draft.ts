import { typedNumber } from '@/lib/core/measures/typed-number';
import { askedFirst, fitsUnit } from '@/lib/core/entries/reading-fields';
import {
  FIELD_INFO,
  fromOwn,
  READING_FIELDS,
  unitOf,
  type Entered,
  type Me,
  type Questioned,
  type ReadingEntry,
  type ReadingField,
  type ReadingValues,
  type UnitOnFile,
} from '@/lib/core/tablet';

/** A reading as it is being typed: texts in the technician's own units, and answers to questions about them. */
export type ReadingDraft = { text: Partial<Record<ReadingField, string>>; answers: Record<string, string> };
export const EMPTY_DRAFT: ReadingDraft = { text: {}, answers: {} };

export function valuesOf(draft: ReadingDraft, me: Me): ReadingValues {
  const values: ReadingValues = {};
  for (const field of READING_FIELDS) {
    const n = typedNumber(draft.text[field] ?? '');
    if (n !== null) values[field] = fromOwn(field, n, me);
  }
  return values;
}

export function enteredOf(draft: ReadingDraft, me: Me): Entered {
  const entered: Entered = {};
  for (const field of READING_FIELDS) {
    const text = draft.text[field];
    if (text && typedNumber(text) !== null) entered[field] = { text, unit: unitOf(field, me) };
  }
  return entered;
}

/** Which gauge a reading was taken with; none where it holds no pressure. */
export function gaugeOf(values: ReadingValues, me: Me | null): Pick<ReadingEntry, 'gaugeGrade' | 'gaugeSpanPa'> {
  const gauged = READING_FIELDS.some((f) => FIELD_INFO[f].dimension === 'pressure' && values[f] !== undefined);
  return gauged && me ? { gaugeGrade: me.gaugeGrade, gaugeSpanPa: me.gaugeSpanPa } : { gaugeGrade: null, gaugeSpanPa: null };
}

type Doubt = { field: string; question: string };
export const doubtKey = (d: Doubt) => `${d.field}: ${d.question}`;
export const questionedOf = (draft: ReadingDraft, doubts: readonly Doubt[]): Questioned[] =>
  doubts.map((d) => ({ field: d.field as ReadingField, question: d.question, answer: draft.answers[doubtKey(d)] ?? '' }));

type Built = Pick<UnitOnFile, 'kind' | 'condenserKind' | 'circuitAccess'>;
export const firstFields = (unit: Built): readonly ReadingField[] => READING_FIELDS.filter((f) => askedFirst(f, unit));
/** Where there are no ports what takes a gauge comes last. */
export function moreFields(unit: Built): readonly ReadingField[] {
  const more = READING_FIELDS.filter((f) => fitsUnit(f, unit) && !askedFirst(f, unit));
  const gauged = (f: ReadingField) => unit.circuitAccess === 'sealed' && FIELD_INFO[f].dimension === 'pressure';
  return [...more.filter((f) => !gauged(f)), ...more.filter(gauged)];
}
