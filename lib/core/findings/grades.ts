/**
 * Grades of a finding, each with a definition two people would agree on.
 * Order is from best to worst; an index into the list is the ordinal score.
 */

export const ASPECTS = ['coil', 'ice', 'drain', 'fan', 'gasket'] as const;
export type Aspect = (typeof ASPECTS)[number];

export type GradeDefinition = { grade: string; label: string; definition: string };

const COIL = [
  { grade: 'bare', label: 'Bare', definition: 'Fins bright; a lamp behind the coil shines through everywhere.' },
  { grade: 'filmed', label: 'Filmed', definition: 'Fins dull, but every gap is open.' },
  { grade: 'furred', label: 'Furred', definition: 'Fluff or grease on the face; light still comes through all of it.' },
  { grade: 'matted', label: 'Matted', definition: 'Light comes through in patches only.' },
  { grade: 'packed', label: 'Packed', definition: 'No light comes through.' },
] as const;

const ICE = [
  { grade: 'dry', label: 'Dry', definition: 'No frost and no ice on the coil or in the pan.' },
  { grade: 'even_frost', label: 'Even frost', definition: 'Thin frost over the whole coil, as expected between defrosts.' },
  { grade: 'part_iced', label: 'Part iced', definition: 'Ice on part of the coil or at the edge of the pan; air still passes.' },
  { grade: 'bridged', label: 'Bridged', definition: 'Ice closes the gaps between fins over a good part of the coil.' },
  { grade: 'block', label: 'Block', definition: 'Solid ice in the pan or through the coil.' },
] as const;

const DRAIN = [
  { grade: 'runs', label: 'Runs', definition: 'A cup of water poured in the pan is gone within a minute.' },
  { grade: 'slow', label: 'Slow', definition: 'The cup of water drains, but stands in the pan for more than a minute.' },
  { grade: 'blocked', label: 'Blocked', definition: 'The water does not go down.' },
  { grade: 'frozen', label: 'Frozen', definition: 'Ice in the drain opening or the line.' },
  { grade: 'broken', label: 'Broken', definition: 'Line, pan or drain heater is damaged or dead.' },
] as const;

const FAN = [
  { grade: 'sound', label: 'Sound', definition: 'Spins freely, right way round, blade whole, no noise.' },
  { grade: 'worn', label: 'Worn', definition: 'Runs, but slow to start, noisy, or the blade is chipped or loaded with grease.' },
  { grade: 'failed', label: 'Failed', definition: 'Does not turn, turns backwards, or the blade is broken.' },
] as const;

const GASKET = [
  { grade: 'sound', label: 'Sound', definition: 'Grips a slip of paper all the way round.' },
  { grade: 'worn', label: 'Worn', definition: 'Grips, but is hard, dirty or lets the paper slide in places.' },
  { grade: 'failed', label: 'Failed', definition: 'Torn, missing, or light shows through the closed door.' },
] as const;

export const GRADES = { coil: COIL, ice: ICE, drain: DRAIN, fan: FAN, gasket: GASKET } as const satisfies Record<
  Aspect,
  readonly GradeDefinition[]
>;

export type CoilGrade = (typeof COIL)[number]['grade'];
export type IceGrade = (typeof ICE)[number]['grade'];
export type DrainGrade = (typeof DRAIN)[number]['grade'];
export type FanGrade = (typeof FAN)[number]['grade'];
export type GasketGrade = (typeof GASKET)[number]['grade'];
export const ASPECT_LABEL: Record<Aspect, string> = {
  coil: 'Condenser coil',
  ice: 'Ice on the low side',
  drain: 'Drain and pan',
  fan: 'Fans',
  gasket: 'Gaskets',
};

/** Ordinal of a grade within its aspect, 0 = best; -1 when the grade is not one of the aspect's. */
export function gradeIndex(aspect: Aspect, grade: string): number {
  return GRADES[aspect].findIndex((g) => g.grade === grade);
}
