import { REFRIGERANTS, type SafetyClass } from './refrigerants/catalogue';

/** ASHRAE 34 groups in words, from memory. */
export const SAFETY_WORDS: Record<SafetyClass, string> = {
  A1: 'no flame propagation',
  A2L: 'mildly flammable',
  A2: 'flammable',
  A3: 'highly flammable',
};

const CAUTION: Record<SafetyClass, string | null> = {
  A1: null,
  A2L: 'Burns if it meets a flame. Keep ignition sources away, use a detector rated for it, and never charge it into a cabinet made for another refrigerant. Work on it as local code and your licence allow.',
  A2: 'Flammable. Keep ignition sources away, use a detector rated for it, and never charge it into a cabinet made for another refrigerant. Work on it as local code and your licence allow.',
  A3: 'Highly flammable. No flame or spark near it, unplug before opening the cabinet, ventilate, use a detector rated for it and like-for-like sealed parts, and never charge it into a cabinet made for another refrigerant. Work on it as local code and your licence allow.',
};

/** Common practice with flammable refrigerants, from memory; null for a refrigerant that does not burn or is unknown. */
export function flammableCaution(refrigerant: string): string | null {
  const info = REFRIGERANTS[refrigerant];
  return info ? CAUTION[info.safetyClass] : null;
}

/** "R-404A": how an id is written for people. */
export const refrigerantLabel = (id: string) => id.replace(/^R(?=\d)/, 'R-');

/** The id that a person's "r404a", "R-404A", "404A" or "propane" means; null when none is meant. */
export function refrigerantId(text: string): string | null {
  const plain = (s: string) => s.toLowerCase().replace(/[\s-]/g, '');
  const asked = plain(text);
  for (const info of Object.values(REFRIGERANTS)) {
    const id = plain(info.id);
    if (asked === id || `r${asked}` === id || asked === plain(info.name)) return info.id;
  }
  return null;
}
