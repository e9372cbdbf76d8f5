import type { Metre } from './quantities';

export const footToMetre = (x: number) => (x * 0.3048) as Metre;
export const metreToFoot = (x: number) => x / 0.3048;
