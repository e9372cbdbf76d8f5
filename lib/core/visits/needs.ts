import type { Skill } from '../people/skills';
import { safetyClassOf } from '../refrigerants/catalogue';

/** Skills that a set of units asks of the technician. An unknown refrigerant is taken as it is: no skill can be named. */
export function needsOf(units: readonly { refrigerant: string; roofWork: boolean }[]): Skill[] {
  const needs = new Set<Skill>();
  for (const u of units) {
    if (u.roofWork) needs.add('roof');
    if (isFlammable(u.refrigerant)) needs.add('flammable');
  }
  return [...needs];
}

/** ASHRAE 34 class A2L, A2 or A3 (B likewise). */
export function isFlammable(refrigerant: string): boolean {
  return /^[AB][23]/.test(safetyClassOf(refrigerant) ?? '');
}
