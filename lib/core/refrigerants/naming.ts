import { FILED_REFRIGERANTS, UNKNOWN_REFRIGERANT } from './catalogue';
import { safetyOf } from './safety';

export { SAFETY_WORDS } from './safety';

/** What stands beside a flammable refrigerant, in one paragraph; null for one that does not burn or is unknown. */
export function flammableCaution(refrigerant: string): string | null {
  const safety = safetyOf(refrigerant);
  return safety?.flammable ? safety.cautions.join(' ') : null;
}

/** "R-404A": how an id is written for people. */
export const refrigerantLabel = (id: string) => (id === UNKNOWN_REFRIGERANT ? 'Refrigerant not known' : id.replace(/^R(?=\d)/, 'R-'));

/** The id that a person's "r404a", "R-404A", "404A", "propane" or "unknown" means; null when none is meant. */
export function refrigerantId(text: string): string | null {
  const plain = (s: string) => s.toLowerCase().replace(/[\s-]/g, '');
  const asked = plain(text);
  if (asked === UNKNOWN_REFRIGERANT || asked === 'notknown') return UNKNOWN_REFRIGERANT;
  for (const info of FILED_REFRIGERANTS) {
    const id = plain(info.id);
    if (asked === id || `r${asked}` === id || asked === plain(info.name)) return info.id;
  }
  return null;
}
