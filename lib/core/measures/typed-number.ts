/** Commas or spaces between groups of three, as figures are written on every page here: "1,400", "1 200.50", "12,500,000". */
const GROUPED = /^([1-9]\d{0,2})((?:,\d{3})+|(?:[ \u00a0\u2009\u202f]\d{3})+)(\.\d*)?$/;
const PLAIN = /^(\d+[.,]?\d*|[.,]\d+)$/;
/** Longer than any number a person types; what is longer is not read at all. */
const LONGEST = 60;
/** What a price or a share may stand beside: "$0.70", "85 USD", "8.25 %". */
const BESIDE = /^(?:\p{Sc}|[A-Z]{1,3}\p{Sc}|[A-Z]{3}\s)?\s*(.*?)\s*(?:\p{Sc}|\s[A-Z]{3}|%)?$/u;

/**
 * A number as people type it into a field that names its unit; null for anything that is not one. A comma before exactly three
 * digits parts thousands, as it does wherever a figure is shown; any other single comma is a decimal point. No other unit is taken
 * off: "300 kPa" in a field of psi is not a number.
 */
export function typedNumber(text: string): number | null {
  if (text.length > LONGEST) return null;
  const [, sign = '', rest = ''] = /^([-−+]?)\s*(.*)$/s.exec(text.trim()) ?? [];
  const bare = BESIDE.exec(rest)?.[1] ?? '';
  const grouped = GROUPED.exec(bare);
  const digits = grouped ? bare.replace(/[^\d.]/g, '') : PLAIN.test(bare) ? bare.replace(',', '.') : null;
  if (digits === null) return null;
  const n = Number(digits);
  return sign === '-' || sign === '−' ? -n : n;
}
