const NAMED_INTERVALS: [RegExp, number][] = [
  [/^(w|wkly|weekly)$/, 1],
  [/^(bi[- ]?weekly|every other week|fortnightly)$/, 2],
  [/^(m|mo|monthly|1x ?\/? ?mo(nth)?)$/, 4],
  [/^(q|qtr|qtrly|quarterly|4x ?(\/|a|per)? ?y(ea)?r)$/, 13],
  [/^(semi[- ]?annual(ly)?|half[- ]?yearly|s|sa|2x ?(\/|a|per)? ?y(ea)?r|twice a year|bi[- ]?annual(ly)?)$/, 26],
  [/^(a|annual(ly)?|yearly|1x ?(\/|a|per)? ?y(ea)?r|once a year)$/, 52],
  [/^(every other month)$/, 9],
];
const OFTEN = /^(\d{1,2}) ?(?:x|times)? ?(?:\/|an?|per|each|every) ?(mo|month|yr|year)s?$/;
const WEEKS_IN: Record<string, number> = { d: 1 / 7, w: 1, m: 52.18 / 12, y: 52.18 };

/** Weeks of "quarterly", "90 days", "every 6 wks", "2x/yr" or, with the unit of the column's name, of a number alone. */
export function readInterval(source: string, header: string): number | null {
  const text = source.trim().toLowerCase().replace(/\.$/, '');
  const named = NAMED_INTERVALS.find(([form]) => form.test(text));
  if (named) return named[1];
  const often = OFTEN.exec(text);
  if (often) return inRange(((often[2] ?? '').startsWith('m') ? 52.18 / 12 : 52.18) / Number(often[1]));
  const bare = /^\d+(\.\d+)?$/.test(text);
  const unit = /\b(day|wk|week|mo|month|yr|year)/i.exec(header)?.[1];
  const m =
    bare && unit
      ? [null, text, unit]
      : /^(?:every\s+|ea\.?\s+|q\.?\s*)?(\d+(?:\.\d+)?)?\s*-?\s*(d|day|w|wk|week|mo|mth|month|yr|year)s?$/.exec(text);
  if (!m) return null;
  return inRange(Number(m[1] ?? 1) * (WEEKS_IN[(m[2] ?? '')[0]?.toLowerCase() ?? ''] ?? NaN));
}

const inRange = (weeks: number): number | null => (Math.round(weeks) >= 1 && Math.round(weeks) <= 104 ? Math.round(weeks) : null);
