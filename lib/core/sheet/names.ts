import { distance } from '../wording/distance';

const small = new Set(['and', 'of', 'the', 'at', 'on', 'in', 'de', 'la', 'du']);

/** How names are compared: no case, no marks, no double spaces. */
export const alike = (name: string) =>
  name
    .toLowerCase()
    .replace(/&/g, ' and ')
    .replace(/['’.`]/g, '')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .replace(/\b(inc|llc|ltd|co)\b/g, '')
    .trim()
    .replace(/\s+/g, ' ');

/** Words of a street in one form. USPS Publication 28, appendices B and C2: the usual ones. */
const STREET_WORDS: Record<string, string> = {
  street: 'st', str: 'st', road: 'rd', avenue: 'ave', av: 'ave', boulevard: 'blvd', drive: 'dr', drv: 'dr', lane: 'ln', court: 'ct', place: 'pl', square: 'sq', parkway: 'pkwy', highway: 'hwy',
  circle: 'cir', terrace: 'ter', trail: 'trl', suite: 'ste', north: 'n', south: 's', east: 'e', west: 'w',
}; // prettier-ignore

/** How addresses are compared: as names are, "114 Wharf Road" like "114 wharf rd." */
export const alikeStreet = (address: string) =>
  alike(address)
    .split(' ')
    .map((word) => STREET_WORDS[word] ?? word)
    .join(' ');

/** A name in shouting or whispering letters, as one writes names. */
export function asName(text: string): string {
  const letters = text.replace(/[^\p{L}]/gu, '');
  if (letters.length < 4 || (letters !== letters.toUpperCase() && letters !== letters.toLowerCase())) return text;
  return text
    .toLowerCase()
    .split(' ')
    .map((w, i) => (i > 0 && small.has(w) ? w : w.replace(/^(\P{L}*)(\p{L})/u, (_, before: string, c: string) => before + c.toUpperCase())))
    .join(' ');
}

/** One spelling for names that are the same but for case and marks: the most frequent, one in mixed case before one in capitals. */
export function spellings(names: readonly string[]): Map<string, string> {
  const counts = new Map<string, Map<string, number>>();
  for (const name of names) {
    const forms = counts.get(alike(name)) ?? new Map<string, number>();
    forms.set(name, (forms.get(name) ?? 0) + 1);
    counts.set(alike(name), forms);
  }
  const loud = (s: string) => s === s.toUpperCase() || s === s.toLowerCase();
  return new Map(
    [...counts].map(([key, forms]) => {
      const [best] = [...forms].sort((a, b) => Number(loud(a[0])) - Number(loud(b[0])) || b[1] - a[1]);
      return [key, asName(best?.[0] ?? '')];
    }),
  );
}

/** Comparisons of two names letter by letter that are made at most: beyond it some slips go unasked. */
const MOST_COMPARED = 200_000;

/** The same name but for at most two letters has, of three pieces of it, one unchanged and at most two places off. */
const SLIPS = 2;
const piecesOf = (length: number) =>
  Array.from(
    { length: SLIPS + 1 },
    (_, i) => [Math.floor((i * length) / (SLIPS + 1)), Math.floor(((i + 1) * length) / (SLIPS + 1))] as const,
  );

/** Pairs of names a slip of the pen apart: two letters at most, in names long enough for it to tell. */
export function nearPairs(keys: readonly string[]): [string, string][] {
  const at = new Map<string, number[]>();
  const pairs: [number, number][] = [];
  let compared = 0;
  keys.forEach((b, j) => {
    if (b.length < 7) return;
    // Numbers tell branches apart.
    const digits = b.replace(/\D/g, '');
    const near = new Set<number>();
    for (let length = b.length - SLIPS; length <= b.length + SLIPS; length++)
      piecesOf(length).forEach(([from, to], piece) => {
        for (let shift = -SLIPS; shift <= SLIPS; shift++) {
          const part = from + shift < 0 ? '' : b.slice(from + shift, to + shift);
          if (part.length === to - from) for (const i of at.get(`${digits} ${length} ${piece} ${part}`) ?? []) near.add(i);
        }
      });
    for (const i of near) {
      const a = keys[i] ?? '';
      if (compared++ >= MOST_COMPARED) break;
      if (distance(a, b) <= (a.length > 12 ? 2 : 1)) pairs.push([i, j]);
    }
    piecesOf(b.length).forEach(([from, to], piece) => {
      const key = `${digits} ${b.length} ${piece} ${b.slice(from, to)}`;
      const there = at.get(key);
      if (there) there.push(j);
      else at.set(key, [j]);
    });
  });
  return pairs.sort((x, y) => x[0] - y[0] || x[1] - y[1]).map(([i, j]) => [keys[i] ?? '', keys[j] ?? '']);
}

/** A telephone number of ten digits in one form; others as they are. */
export function phone(text: string): string {
  const [, main = text, extension = ''] = /^(.*?)(?:\s*(?:x|ext\.?)\s*(\d+))?$/i.exec(text.trim()) ?? [];
  const digits = main.replace(/\D/g, '').replace(/^1(?=\d{10}$)/, '');
  if (digits.length !== 10 || /[a-z]/i.test(main)) return text.trim();
  return `${digits.slice(0, 3)}-${digits.slice(3, 6)}-${digits.slice(6)}${extension ? ` ext ${extension}` : ''}`;
}
