/**
 * What people type, with what no name, note or address holds taken out: control characters (Unicode Cc), line and
 * paragraph separators, marks that turn the writing direction (they can make a name read as another), and halves of
 * surrogate pairs. Such a character once let a name write lines of its own into a calendar file.
 */
const BREAK = /\r\n?|[\u0085\u2028\u2029]/g;
const NOT_WRITING = /[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu;
const HALF = /\p{Surrogate}/gu;

/** For what stands on one line: breaks and tabs become a blank. */
export const oneLine = (text: string): string =>
  text
    .replace(BREAK, ' ')
    .replace(/[\n\t]/g, ' ')
    .replace(NOT_WRITING, '')
    .replace(HALF, '\uFFFD');

/** For what may run over several lines: each break is one line feed, tabs stay. */
export const manyLines = (text: string): string =>
  text
    .replace(BREAK, '\n')
    .replace(NOT_WRITING, (c) => (c === '\n' || c === '\t' ? c : ''))
    .replace(HALF, '\uFFFD');

/** Hyphens and blanks of other programs as a keyboard has them, and marks without width left out: "Reach‑in" is "Reach-in". */
export const plainMarks = (text: string): string =>
  text
    .replace(/[\u2010\u2011\ufe63\uff0d]/g, '-')
    .replace(/[\u00a0\u2000-\u200a\u202f\u3000]/g, ' ')
    .replace(/[\u00ad\u200b\u2060\ufeff]/g, '');
