import type { SafetyClass } from '../refrigerants/catalogue';

/**
 * What can hurt someone, said at the step where it can. From memory and common practice: local code, the makers'
 * instructions and licensed practice come first, and each caution says so.
 */

export const CAUTION_STEPS = ['before_opening', 'coil', 'chemicals', 'readings', 'ladder', 'food'] as const;
export type CautionStep = (typeof CAUTION_STEPS)[number];

export type Caution = { step: CautionStep; title: string; words: string };

const DEFER = 'Local code, the maker’s instructions and your licence come first.';

const FLAMMABLE: Partial<Record<SafetyClass, string>> = {
  A2L: `Mildly flammable refrigerant. No flame, spark or hot tool while the circuit may be open; ventilate; use a detector rated for it. ${DEFER}`,
  A2: `Flammable refrigerant. No flame, spark or hot tool near it; ventilate; use a detector rated for it. ${DEFER}`,
  A3: `Highly flammable refrigerant. Unplug before opening the cabinet. No flame, no spark, no vacuum cleaner or drill that is not rated for it; ventilate; check with a rated detector first. Do not open the sealed system without the licence for it. ${DEFER}`,
};

type AboutUnit = { safetyClass: SafetyClass | null; flammable: boolean; roofWork: boolean; wallHigh?: boolean };

/** The cautions of one unit in the order they are met. */
export function cautionsFor(unit: AboutUnit): Caution[] {
  const list: Caution[] = [
    {
      step: 'before_opening',
      title: 'Power off and locked out',
      words: `Switch off, lock and tag, and prove it dead before a hand goes near fan, coil or wiring. Fans start by themselves; capacitors hold charge. ${DEFER}`,
    },
  ];
  const burns = unit.safetyClass ? FLAMMABLE[unit.safetyClass] : undefined;
  if (burns) list.push({ step: 'before_opening', title: 'Refrigerant that burns', words: burns });
  else if (unit.safetyClass === null)
    list.push({
      step: 'before_opening',
      title: 'Refrigerant not known',
      words: `Read the nameplate first. Until you know, treat it as flammable: no flame, no spark, ventilate. ${DEFER}`,
    });
  if (unit.roofWork)
    list.push({
      step: 'ladder',
      title: 'Ladder or roof',
      words: `Ladder footed and tied, three points of contact, someone who knows you are up there; no roof in storm or ice. ${DEFER}`,
    });
  list.push(
    {
      step: 'coil',
      title: 'Sharp fins',
      words: 'Fins cut. Cut-resistant gloves and eye protection; brush and blow along the fins, never across them.',
    },
    {
      step: 'chemicals',
      title: 'Chemicals on aluminium',
      words:
        'No strong acid and no strong alkali on an aluminium coil; never mix cleaners. Read the label and the safety sheet, rinse until it runs clear, keep it off food and food surfaces.',
    },
    {
      step: 'readings',
      title: 'Hot discharge line, and pressure',
      words: `The discharge line can burn: clamp it with the unit off. Eye protection with hoses on; each connection to a small sealed system loses charge, so use a clamp where you can. Never vent refrigerant. ${DEFER}`,
    },
  );
  return list;
}

/** US Food Code 3-501.16: cold holding at 41 °F (5 °C) or below. Kelvin. */
export const FOOD_LIMIT_K = 278.15;

export const FOOD_CAUTION = {
  title: 'Food above 41 °F (5 °C)',
  words:
    'Tell whoever runs the kitchen now, and write down whom and when. What becomes of the food is theirs to decide under the local food code; this program does not rule on it.',
} as const;
