/** A quote's sums. Money in whole cents (hundredths of the shop's currency), so that no sum depends on the order of its lines. */

export const QUOTE_LINE_KINDS = ['labour', 'part', 'refrigerant', 'trip', 'other'] as const;
export type QuoteLineKind = (typeof QUOTE_LINE_KINDS)[number];
export const QUOTE_LINE_LABEL: Record<QuoteLineKind, string> = {
  labour: 'Labour',
  part: 'Part',
  refrigerant: 'Refrigerant',
  trip: 'Trip',
  other: 'Other',
};

/** "Part: Door hinge"; one word where both are the same, in the office's words or the reader's (`label`), or nothing more was said. */
export function quoteLineWords(kind: QuoteLineKind, label: string, what: string): string {
  const said = what.trim().toLowerCase();
  return ['', label.toLowerCase(), QUOTE_LINE_LABEL[kind].toLowerCase()].includes(said) ? label : `${label}: ${what}`;
}

export type QuoteLine = {
  kind: QuoteLineKind;
  what: string;
  quantity: number;
  /** "h", "pcs", "lb" …, as it is said to the customer. */
  unit: string;
  priceCents: number;
  taxed: boolean;
  /** Of the shop's list of parts, where it is one. */
  partNumber?: string;
};

export type QuoteSums = { lines: number[]; netCents: number; taxCents: number; totalCents: number };

/** Half a cent goes away from zero, as on a till. */
const cents = (x: number) => Math.sign(x) * Math.round(Math.abs(x) + 1e-9);

/**
 * @param taxPercent of the taxed lines' sum, rounded once
 * @throws RangeError where a quantity or price is not a number of zero or more
 */
export function quoteSums(lines: readonly QuoteLine[], taxPercent: number): QuoteSums {
  if (!(taxPercent >= 0 && taxPercent <= 100)) throw new RangeError('Tax is a percentage from 0 to 100.');
  const each = lines.map(({ quantity, priceCents }) => {
    if (!(quantity >= 0 && priceCents >= 0 && Number.isFinite(quantity * priceCents)))
      throw new RangeError('A quantity and a price are zero or more.');
    return cents(quantity * priceCents);
  });
  const netCents = each.reduce((a, b) => a + b, 0);
  const taxable = each.reduce((sum, c, i) => sum + (lines[i]?.taxed ? c : 0), 0);
  const taxCents = cents((taxable * taxPercent) / 100);
  return { lines: each, netCents, taxCents, totalCents: netCents + taxCents };
}

const MINUTES_OF: readonly (readonly [RegExp, number])[] = [
  [/^(h|hr|hrs|hours?)\.?$/i, 60],
  [/^min(ute)?s?\.?$/i, 1],
];

/** Minutes that a quote's labour counts on, up to the next five; null where none of it is in hours or minutes. */
export function quotedMinutes(lines: readonly QuoteLine[]): number | null {
  const sum = lines
    .filter((l) => l.kind === 'labour')
    .reduce((all, l) => all + l.quantity * (MINUTES_OF.find(([unit]) => unit.test(l.unit.trim()))?.[1] ?? 0), 0);
  return sum > 0 ? Math.ceil(sum / 5 - 1e-9) * 5 : null;
}

/** What is booked for work that nobody put hours to. Judgement. */
const USUAL_MINUTES = 60;

/** Minutes that a booking for a quote's work takes: its labour, within what one visit can hold; the usual where it has none. */
export const bookedMinutes = (lines: readonly QuoteLine[]): number => Math.min(720, Math.max(10, quotedMinutes(lines) ?? USUAL_MINUTES));
