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

/** Pairs of names a slip of the pen apart: two letters at most, in names long enough for it to tell. */
export function nearPairs(keys: readonly string[]): [string, string][] {
  const pairs: [string, string][] = [];
  keys.forEach((a, i) =>
    keys.slice(i + 1).forEach((b) => {
      // Numbers tell branches apart.
      if (a.replace(/\D/g, '') !== b.replace(/\D/g, '')) return;
      if (Math.min(a.length, b.length) >= 7 && Math.abs(a.length - b.length) <= 2 && distance(a, b) <= (a.length > 12 ? 2 : 1))
        pairs.push([a, b]);
    }),
  );
  return pairs;
}

/** Levenshtein distance. */
function distance(a: string, b: string): number {
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++)
      row.push(Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1)));
    last = row;
  }
  return last[b.length] ?? 0;
}

/** A telephone number of ten digits in one form; others as they are. */
export function phone(text: string): string {
  const [, main = text, extension = ''] = /^(.*?)(?:\s*(?:x|ext\.?)\s*(\d+))?$/i.exec(text.trim()) ?? [];
  const digits = main.replace(/\D/g, '').replace(/^1(?=\d{10}$)/, '');
  if (digits.length !== 10 || /[a-z]/i.test(main)) return text.trim();
  return `${digits.slice(0, 3)}-${digits.slice(3, 6)}-${digits.slice(6)}${extension ? ` ext ${extension}` : ''}`;
}
