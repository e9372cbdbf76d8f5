import type { CondenserKind, UnitKind } from '../equipment/build';
import type { SafetyClass } from '../refrigerants/catalogue';

/**
 * What can hurt someone, said once, at the step where it can. From memory and common practice: local code, the makers'
 * instructions and licensed practice come first.
 */

/** The work on one unit, in its order. */
export const WORK_STEPS = ['read', 'look', 'restore', 'leave'] as const;
export type WorkStep = (typeof WORK_STEPS)[number];

export const WORK_STEP_LABEL: Record<WorkStep, string> = {
  read: 'Read while it runs',
  look: 'Lock out, look and clean',
  restore: 'Power back, wait, read',
  leave: 'Leave the unit',
};

/** The first words of each, for a phone. */
export const WORK_STEP_SHORT: Record<WorkStep, string> = { read: 'Read', look: 'Lock out', restore: 'Power back', leave: 'Leave' };

/** What a kind of task can hurt with. */
export type CautionTopic = 'coil' | 'chemicals' | 'water';

/** `words` say what must be done and are always in sight; `more` is one tap away where there is little room. */
export type Caution = { step: WorkStep; title: string; text: string; more?: string };

const DEFER = 'Local code, the maker’s instructions and your licence come first.';

const BURNS: Record<Exclude<SafetyClass, 'A1'>, string> = {
  A2L: 'Burns slowly',
  A2: 'Burns',
  A3: 'Burns fiercely',
};

export type AboutUnit = {
  kind: UnitKind;
  condenserKind: CondenserKind;
  application: 'medium' | 'low';
  refrigerant: string;
  /** Null where the refrigerant is not known: no all-clear. */
  safetyClass: SafetyClass | null;
  /** "5.3 oz", in the reader's own unit; null where it is not on file. */
  charge: string | null;
  roofWork: boolean;
  /** What the planned tasks bring with them. */
  topics: readonly CautionTopic[];
};

/** The cautions of one unit in the order they are met. */
export function cautionsFor(unit: AboutUnit): Caution[] {
  return [...toRead(unit), ...toLook(unit), ...toRestore(unit)];
}

function toRead(unit: AboutUnit): Caution[] {
  const list: Caution[] = [];
  if (unit.roofWork)
    list.push({
      step: 'read',
      title: 'Ladder or roof',
      text: 'Ladder footed and tied, three points of contact; no roof in storm or ice.',
      more: 'Someone knows that you are up there.',
    });
  if (walkIn(unit))
    list.push({
      step: 'read',
      title: 'Walk-in',
      text: 'Try the inside release before the door closes behind you, and tell someone that you are in there.',
    });
  const gas = gasCaution(unit);
  if (gas) list.push(gas);
  list.push({
    step: 'read',
    title: 'It runs',
    text: 'Blades turn, the discharge line burns skin, the circuit is under pressure.',
    more: `Covers off only as far as the clamp needs; eye protection with hoses on. ${DEFER}`,
  });
  return list;
}

function gasCaution({ refrigerant, safetyClass, charge }: AboutUnit): Caution | null {
  const held = charge ? ` ${charge} in it.` : ' Charge not on file: read the plate.';
  if (refrigerant === 'R744')
    return {
      step: 'read',
      title: 'CO2',
      text: `Very high pressure, running or stopped; it smothers without warning: ventilate, carry a CO2 alarm.${held}`,
      more: 'The pressure of a stopped system rises as it warms. Only gauges and hoses rated for it; never alone in a closed room.',
    };
  if (safetyClass === null)
    return {
      step: 'read',
      title: 'Refrigerant not known',
      text: 'Until the plate tells, treat it as one that burns: ventilate, detector on, no flame, no spark.',
    };
  if (safetyClass === 'A1') return null;
  return {
    step: 'read',
    title: `${BURNS[safetyClass]} (${safetyClass})`,
    text: `Ventilate; detector clear before you switch anything or open the machine compartment. No flame, no spark.${held}`,
    more: 'The detector, and every tool or vacuum cleaner, rated for it.',
  };
}

function toLook(unit: AboutUnit): Caution[] {
  const list: Caution[] = [
    {
      step: 'look',
      title: 'Lock out first',
      text: 'Unplug, or lock the disconnect where it is hard-wired, and prove it dead before a hand goes in.',
      more: `Fans start by themselves; capacitors hold charge. ${DEFER}`,
    },
  ];
  if (unit.topics.includes('coil') && unit.condenserKind !== 'water_cooled')
    list.push({
      step: 'look',
      title: 'Fins, cleaner, water',
      text: 'Gloves and eye protection: fins cut. Keep wash water off motors, controls and wiring.',
      more: 'Brush along the fins. No strong acid or alkali on aluminium, never two cleaners together, rinse clear, keep it off food.',
    });
  if (unit.topics.includes('water'))
    list.push({
      step: 'look',
      title: 'Water side',
      text: 'Water leaving may scald. Shut it off and let the pressure out before you open it; keep it off wiring.',
      more: 'Descale only with what the maker allows, gloves and eye protection on; never two cleaners together; rinse, and drain it as local code says.',
    });
  if (unit.kind === 'ice_machine' && unit.topics.includes('chemicals'))
    list.push({
      step: 'look',
      title: 'Descaler and sanitiser',
      text: 'Never together. The bin is food surface: cover or empty it; throw away the first ice after.',
    });
  if (unit.application === 'low' && unit.kind !== 'ice_machine')
    list.push({ step: 'look', title: 'Frozen drain', text: 'Warm water, never a flame and never a pick on the pan or the coil.' });
  return list;
}

function toRestore({ safetyClass, refrigerant }: AboutUnit): Caution[] {
  const burns = safetyClass !== 'A1' && refrigerant !== 'R744';
  return [
    {
      step: 'restore',
      title: 'Power back on',
      text: `Hands, tools and rags clear, guards and covers on${burns ? ', detector clear once more' : ''}. Let it run 10 to 15 minutes before you read it.`,
    },
  ];
}

const walkIn = ({ kind }: AboutUnit) => kind === 'walk_in_cooler' || kind === 'walk_in_freezer';

/** US Food Code 3-501.16: cold holding at 41 °F (5 °C) or below. Kelvin. */
export const FOOD_LIMIT_K = 278.15;

export const FOOD_CAUTION = {
  title: 'Food above 41 °F (5 °C)',
  text: 'Tell whoever runs the kitchen now, and write down whom and when. What becomes of the food is theirs to decide under the local food code; this program does not rule on it.',
} as const;
