/** Skills that a visit may ask for. */
export const SKILLS = ['flammable', 'roof'] as const;
export type Skill = (typeof SKILLS)[number];

/** Within a sentence. */
export const SKILL_WITHIN: Record<Skill, string> = { flammable: 'flammable refrigerants', roof: 'roof work' };

export const SKILL_LABEL: Record<Skill, string> = {
  flammable: 'Flammable refrigerants (A2L, A2, A3)',
  roof: 'Roof and ladder work',
};
