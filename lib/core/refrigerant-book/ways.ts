import type { CylinderContents } from './cylinders';

/** What a line of the book says happened. */
export const CYLINDER_WAYS = ['charged', 'recovered', 'bought', 'to_reclaim', 'to_destruction', 'moved', 'scale_check'] as const;
export type CylinderWay = (typeof CYLINDER_WAYS)[number];

export const CYLINDER_WAY_LABEL: Record<CylinderWay, string> = {
  charged: 'Charged into a unit',
  recovered: 'Recovered from a unit',
  bought: 'Bought, filled',
  to_reclaim: 'Handed in to be reclaimed',
  to_destruction: 'Handed in to be destroyed',
  moved: 'From or to another cylinder',
  scale_check: 'Weighed to check',
};

/** Those that touch a unit's circuit: only with a certificate, and always with the unit's name. */
export const TOUCHES_UNIT: ReadonlySet<CylinderWay> = new Set(['charged', 'recovered']);
const INTO: ReadonlySet<CylinderWay> = new Set(['recovered', 'bought']);

/** Mass into the cylinder (kg) of an amount typed without a sign; a move says its own. */
export const signedKg = (way: CylinderWay, kg: number): number =>
  way === 'scale_check' ? 0 : way === 'moved' ? kg : INTO.has(way) ? Math.abs(kg) : -Math.abs(kg);

export const CONTENTS_LABEL: Record<CylinderContents, string> = { new: 'New', recovered: 'Recovered' };

/** A cylinder as a tablet knows it: where, and what it should weigh. Masses in kg. */
export type CylinderOnFile = {
  id: string;
  label: string;
  refrigerant: string;
  contents: CylinderContents;
  tareKg: number;
  mostKg: number;
  /** Gas in it by the book. */
  bookKg: number;
  mine: boolean;
};
