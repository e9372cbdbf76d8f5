import { ownText } from '../tablet/own-units';
import { FIELD_INFO, isReadingField as isField, READING_FIELDS } from './reading-fields';
import { isRecord, ownUnits, type Line, type Say } from './say';

/** A reading's quantities, each as it was typed; converted where that was not sent. */
export const quantities: Say = (values, { units }, { entered }) => {
  if (!isRecord(values)) return null;
  const lines: Line[] = [];
  for (const field of READING_FIELDS) {
    const typed = isRecord(entered) ? entered[field] : undefined;
    const value = values[field];
    if (isRecord(typed) && typeof typed.text === 'string' && typeof typed.unit === 'string')
      lines.push([FIELD_INFO[field].label, `${typed.text.replace('-', '−')} ${typed.unit}`]);
    else if (typeof value === 'number') lines.push([FIELD_INFO[field].label, ownText(field, value, ownUnits(units))]);
  }
  const shownLabels = new Set(lines.map(([label]) => label));
  return { lines, whole: Object.keys(values).every((key) => isField(key) && shownLabels.has(FIELD_INFO[key].label)) };
};

/** What the tablet asked about a quantity, and the answer. */
export const doubts: Say = (questioned) => {
  if (!Array.isArray(questioned)) return null;
  const questionsShown = questioned.filter(
    (q): q is { field: string; question: string; answer: string } =>
      isRecord(q) && typeof q.field === 'string' && typeof q.question === 'string' && typeof q.answer === 'string',
  );
  const lines = questionsShown.map((q): Line => [
    `Asked about ${isField(q.field) ? FIELD_INFO[q.field].label.toLowerCase() : q.field}`,
    `${q.question} ${q.answer}`,
  ]);
  return { lines, whole: questionsShown.length === questioned.length };
};
