import type { Piecewise } from '../../lib/core/numerics/chebyshev';

/**
 * How often the whole was halved for each piece, as `ChebyshevCurve` reads it back: knots of a fit are its ends and middles of
 * middles, so the same halvings give the same knots to the last bit. @throws where they are not
 */
export function halved({ knots, pieces }: Piecewise): Piecewise {
  const [first, last] = [knots[0], knots.at(-1)];
  if (first === undefined || last === undefined) throw new Error('No knots');
  const depths: string[] = [];
  const walk = (a: number, b: number, from: number, to: number, depth: number): void => {
    if (to - from === 1) {
      depths.push(depth.toString(36));
      return;
    }
    const middle = (a + b) / 2;
    const at = knots.indexOf(middle);
    if (at <= from || at >= to) throw new Error(`No knot at the middle of ${a} and ${b}`);
    walk(a, middle, from, at, depth + 1);
    walk(middle, b, at, to, depth + 1);
  };
  walk(first, last, 0, knots.length - 1, 0);
  return depths.length > 1 ? { knots: [first, last], halved: depths.join(''), pieces } : { knots, pieces };
}

/** JSON whose numbers are written as short as they can be, each the same number: 0.0000123 is 123e-7. */
export const shortNumbers = (json: string): string =>
  json.replace(/-?\d+\.\d+(?:e-?\d+)?/g, (text) => {
    const [, sign = '', whole = '', part = '', power = '0'] = /^(-?)(\d+)\.(\d+)(?:e(-?\d+))?$/.exec(text) ?? [];
    const short = `${sign}${`${whole}${part}`.replace(/^0+(?=\d)/, '')}e${Number(power) - part.length}`;
    return short.length < text.length && Number(short) === Number(text) ? short : text;
  });
