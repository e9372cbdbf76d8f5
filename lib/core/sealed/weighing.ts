type OnScale = { way: 'recover' | 'charge'; startKg: number | null; endKg: number | null };

/** What left the unit or came into it, kg, by the cylinder on the scale before and after; null until both are known. */
export function weighedKg({ way, startKg, endKg }: OnScale): number | null {
  if (startKg === null || endKg === null) return null;
  return way === 'recover' ? endKg - startKg : startKg - endKg;
}

/** A cylinder that has taken in more gas than it may hold. */
export const isTooFull = ({ way, endKg }: Omit<OnScale, 'startKg'>, { tareKg, mostKg }: { tareKg: number; mostKg: number }): boolean =>
  way === 'recover' && endKg !== null && endKg - tareKg > mostKg;
