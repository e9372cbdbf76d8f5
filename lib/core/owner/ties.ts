import { Z80 } from '../condenser/bands';

/** A rate as believed: mean and standard deviation. */
export type Believed = { rate: number; sd: number };

/**
 * Between which places of a ranking each of some stands: above it only those that surely foul faster, below it only those
 * that surely foul slower. Sure: nine chances in ten by both beliefs together, taken as normal and as independent (units
 * of one kitchen lean on each other, so their order is a little surer than this says).
 * @param shown whose places are wanted @param all everybody ranked, the shown ones among them
 */
export function places(shown: readonly Believed[], all: readonly Believed[]): { best: number; worst: number }[] {
  const rates = Float64Array.from(all, (a) => a.rate);
  const variances = Float64Array.from(all, (a) => a.sd * a.sd);
  return shown.map(({ rate, sd }) => {
    let [faster, slower] = [0, 0];
    const own = sd * sd;
    rates.forEach((other, i) => {
      const apart = other - rate;
      // Squares on both sides: no root for each of many thousand pairs.
      if (apart * apart <= Z80 * Z80 * (own + (variances[i] ?? 0))) return;
      if (apart > 0) faster++;
      else slower++;
    });
    return { best: faster + 1, worst: all.length - slower };
  });
}

/** Which of the others stand with one so that neither surely fouls faster. */
export const notApartFrom = <T extends Believed>(one: Believed, others: readonly T[]): T[] =>
  others.filter((other) => {
    const [place] = places([one], [one, other]);
    return place?.best === 1 && place.worst === 2;
  });
