/** What is possible of a measured value, as people read and type it. */

type Span = readonly [lowest: number, highest: number];

/** What is lost on the way from a person's unit to SI and in a bound written there with few digits, as a share. */
const NOISE = 1e-5;
const noiseOf = (bound: number) => NOISE * Math.abs(bound);

/**
 * A value (SI) held to a span (SI): itself inside it, the bound where it is the bound but for the last digits (−60 °C is not
 * quite 213.15 K), null beyond.
 */
export function heldTo(span: Span, si: number): number | null {
  const [lowest, highest] = span;
  if (!(si >= lowest - noiseOf(lowest) && si <= highest + noiseOf(highest))) return null;
  return Math.min(Math.max(si, lowest), highest);
}

/** Three digits, on the side of the bound where a value can be: whoever types what is named here is not refused. */
function inward(bound: number, inside: 1 | -1, fromSi: (x: number) => number): string {
  const shown = fromSi(bound);
  const near = Number(shown.toPrecision(3));
  if (inside * (near - shown) >= -Math.abs(fromSi(bound + noiseOf(bound)) - shown)) return String(near);
  const step = 10 ** (Math.floor(Math.log10(Math.abs(shown))) - 2);
  return String(Number((near + inside * step).toPrecision(3)));
}

/** A span (SI) in a person's unit, for the sentence that says what is possible. */
export function possibleIn(span: Span, fromSi: (x: number) => number): [lowest: string, highest: string] {
  return [inward(span[0], 1, fromSi), inward(span[1], -1, fromSi)];
}
