import { oneLine } from './plain-text';

/** Pieces shorter than this find half of everything. */
export const LEAST_LETTERS = 3;
const MOST_WORDS = 5;

const plain = (text: string) => text.toLowerCase().normalize('NFD').replace(/\p{M}/gu, '');

/**
 * What somebody types to find a record, in the form in which records are kept for it: words of letters and signs, each to
 * be found somewhere. A number typed with blanks or hyphens counts as one. Empty when there is too little to go by.
 */
export function searchWords(typed: string): string[] {
  const text = plain(oneLine(typed)).trim();
  // "(555) 014-2" and "555 0142" are one number.
  if (/^[\d\s()+./-]+$/.test(text)) {
    const digits = text.replace(/\D/g, '');
    return digits.length >= LEAST_LETTERS ? [digits] : [];
  }
  const terms = text.split(/\s+/).slice(0, MOST_WORDS);
  return terms.some((w) => w.length >= LEAST_LETTERS) ? terms : [];
}
