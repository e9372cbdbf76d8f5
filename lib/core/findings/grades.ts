import { keysOf, recordOf } from '../typed/closed-set';

/**
 * Grades of a finding, each with a definition two people would agree on, and what they mean for everything that reads
 * them. Order is from best to worst; an index into the list is the ordinal score.
 */

export type GradeDefinition = { grade: string; label: string; definition: string };

type AspectInfo = {
  label: string;
  /** At the head of a sentence, and within one. */
  subject: string;
  within: string;
  grades: readonly GradeDefinition[];
  /** The worst grade that still counts as a clean look. */
  cleanTo: string;
  /** From here on it does not do its work: it stands open on the unit's page, and counts as a failure. */
  stoppedFrom: string;
  /** From here on somebody goes back within days, and a rule tightens at once. */
  severeFrom: string;
  /**
   * It fails at a rate, unseen until somebody looks, so an inspection's interval can be learned from it. How its mean
   * time to failure stands to that of a drain of the same kind of box.
   */
  fails?: { timesADrain: number };
};

const FAN_GRADES = [
  { grade: 'sound', label: 'Sound', definition: 'Spins freely, right way round, blade whole, no noise.' },
  { grade: 'worn', label: 'Worn', definition: 'Runs, but slow to start, noisy, or the blade is chipped or loaded with grease.' },
  { grade: 'failed', label: 'Failed', definition: 'Does not turn, turns backwards, or the blade is broken.' },
] as const;
const FAN = { grades: FAN_GRADES, cleanTo: 'sound', stoppedFrom: 'failed', severeFrom: 'failed' } as const;

export const ASPECT_INFO = {
  coil: {
    label: 'Condenser coil',
    subject: 'Coil',
    within: 'the coil',
    grades: [
      { grade: 'bare', label: 'Bare', definition: 'Fins bright; a lamp behind the coil shines through everywhere.' },
      { grade: 'filmed', label: 'Filmed', definition: 'Fins dull; a finger comes away grey or greasy. Nothing stands up from the face.' },
      {
        grade: 'furred',
        label: 'Furred',
        definition: 'A coat stands up from the face and can be lifted off; a lamp behind still shines through everywhere.',
      },
      { grade: 'matted', label: 'Matted', definition: 'The coat closes it in patches: there no light comes through.' },
      { grade: 'packed', label: 'Packed', definition: 'Closed: hardly any light comes through anywhere.' },
    ],
    cleanTo: 'furred',
    stoppedFrom: 'matted',
    severeFrom: 'packed',
  },
  condenser_fan: { label: 'Condenser fan', subject: 'Condenser fan', within: 'the condenser fan', ...FAN },
  air_path: {
    label: 'Air path of the condenser',
    subject: 'Air path',
    within: 'the condenser’s air path',
    grades: [
      {
        grade: 'open',
        label: 'Open',
        definition: 'Nothing within a hand’s breadth of where air goes in or comes out; grille and filter clear.',
      },
      {
        grade: 'narrowed',
        label: 'Narrowed',
        definition: 'Something takes part of the opening: a box, a cloth, a wall too near, a loaded filter. Air still comes out all over.',
      },
      { grade: 'blocked', label: 'Blocked', definition: 'Covered or stuffed: hardly any air comes out with the fan turning.' },
    ],
    cleanTo: 'open',
    stoppedFrom: 'blocked',
    severeFrom: 'blocked',
  },
  ice: {
    label: 'Ice on the low side',
    subject: 'Ice',
    within: 'ice in the pan',
    grades: [
      { grade: 'dry', label: 'Dry', definition: 'No frost and no ice on the coil or in the pan.' },
      { grade: 'even_frost', label: 'Even frost', definition: 'Thin frost over the whole coil, as expected between defrosts.' },
      { grade: 'part_iced', label: 'Part iced', definition: 'Ice on part of the coil or at the edge of the pan; air still passes.' },
      { grade: 'bridged', label: 'Bridged', definition: 'Ice closes the gaps between fins over a good part of the coil.' },
      { grade: 'block', label: 'Block', definition: 'Solid ice in the pan or through the coil.' },
    ],
    cleanTo: 'even_frost',
    stoppedFrom: 'bridged',
    severeFrom: 'block',
    // Judgement: ice comes somewhat less often than a stopped drain.
    fails: { timesADrain: 1.3 },
  },
  evaporator_coil: {
    label: 'Evaporator coil, dirt',
    subject: 'Evaporator coil',
    within: 'the evaporator coil',
    grades: [
      { grade: 'clean', label: 'Clean', definition: 'Fins bright; a strip of paper held to the face is drawn or blown alike everywhere.' },
      { grade: 'dusty', label: 'Dusty', definition: 'Dust, flour or lint on the fins; every gap is open.' },
      { grade: 'clogged', label: 'Clogged', definition: 'Gaps are closed over part of the face; the paper hangs slack there.' },
      { grade: 'choked', label: 'Choked', definition: 'Hardly any air comes through anywhere.' },
    ],
    cleanTo: 'dusty',
    stoppedFrom: 'clogged',
    severeFrom: 'choked',
  },
  evaporator_fan: { label: 'Evaporator fan', subject: 'Evaporator fan', within: 'the evaporator fan', ...FAN },
  drain: {
    label: 'Drain and pan',
    subject: 'Drain',
    within: 'the drain',
    grades: [
      { grade: 'runs', label: 'Runs', definition: 'A cup of water poured in the pan is gone within a minute.' },
      { grade: 'slow', label: 'Slow', definition: 'The cup of water drains, but stands in the pan for more than a minute.' },
      { grade: 'blocked', label: 'Blocked', definition: 'The water does not go down.' },
      { grade: 'frozen', label: 'Frozen', definition: 'Ice in the drain opening or the line.' },
      { grade: 'broken', label: 'Broken', definition: 'Line, pan or drain heater is damaged or dead.' },
    ],
    cleanTo: 'runs',
    stoppedFrom: 'blocked',
    severeFrom: 'blocked',
    fails: { timesADrain: 1 },
  },
  gasket: {
    label: 'Gaskets',
    subject: 'Gasket',
    within: 'the gaskets',
    grades: [
      { grade: 'sound', label: 'Sound', definition: 'Grips a slip of paper all the way round.' },
      { grade: 'worn', label: 'Worn', definition: 'Grips, but is hard, dirty or lets the paper slide in places.' },
      { grade: 'failed', label: 'Failed', definition: 'Torn, missing, or light shows through the closed door.' },
    ],
    cleanTo: 'sound',
    stoppedFrom: 'failed',
    severeFrom: 'failed',
  },
  scale: {
    label: 'Scale on plate and trough',
    subject: 'Scale',
    within: 'scale on the plate',
    grades: [
      { grade: 'clean', label: 'Clean', definition: 'Plate, trough and tubes smooth; a fingernail finds nothing.' },
      { grade: 'filmed', label: 'Filmed', definition: 'A white film that a finger wipes off.' },
      { grade: 'crusted', label: 'Crusted', definition: 'A hard crust in places; a fingernail catches on it.' },
      { grade: 'caked', label: 'Caked', definition: 'Hard all over, or so thick that ice comes off badly.' },
    ],
    cleanTo: 'filmed',
    stoppedFrom: 'caked',
    severeFrom: 'caked',
  },
  float: {
    label: 'Float and water inlet',
    subject: 'Float',
    within: 'the float',
    grades: [
      { grade: 'sound', label: 'Sound', definition: 'Fills to the mark and shuts off.' },
      { grade: 'worn', label: 'Worn', definition: 'Sticks, drips on, or fills slowly.' },
      { grade: 'failed', label: 'Failed', definition: 'Runs over, or does not fill.' },
    ],
    cleanTo: 'sound',
    stoppedFrom: 'failed',
    severeFrom: 'failed',
  },
} as const satisfies Record<string, AspectInfo>;

type Table = typeof ASPECT_INFO;
export type Aspect = keyof Table;
export type GradeOf<A extends Aspect> = Table[A]['grades'][number]['grade'];
export type Grade = GradeOf<Aspect>;
export type CoilGrade = GradeOf<'coil'>;
export type FanGrade = GradeOf<'condenser_fan'>;
export type IceGrade = GradeOf<'ice'>;
/** Aspects that an inspection's interval can be learned from. */
export type FailureAspect = { [A in Aspect]: Table[A] extends { fails: object } ? A : never }[Aspect];

export const ASPECTS = keysOf(ASPECT_INFO);
export const isFailureAspect = (a: Aspect): a is FailureAspect => 'fails' in ASPECT_INFO[a];
export const FAILURE_ASPECTS = ASPECTS.filter(isFailureAspect);
export const aspectInfo = (aspect: Aspect): AspectInfo => ASPECT_INFO[aspect];

const each = <T>(of: (info: AspectInfo) => T) => recordOf(ASPECTS, (a) => of(ASPECT_INFO[a]));
export const ASPECT_LABEL = each((i) => i.label);
export const GRADES = Object.fromEntries(ASPECTS.map((a) => [a, ASPECT_INFO[a].grades])) as { [A in Aspect]: Table[A]['grades'] };
/** The grades of an aspect, the best first. */
export const bestGrade = (aspect: Aspect): Grade => ASPECT_INFO[aspect].grades[0].grade;
export const gradesOf = (aspect: Aspect): readonly (Omit<GradeDefinition, 'grade'> & { grade: Grade })[] => ASPECT_INFO[aspect].grades;
/** Every grade's name once. */
export const GRADE_NAMES = [...new Set(ASPECTS.flatMap((a) => ASPECT_INFO[a].grades.map((g) => g.grade)))] as [Grade, ...Grade[]];

/** Ordinal of a grade within its aspect, 0 = best; -1 when the grade is not one of the aspect's. */
export function gradeIndex(aspect: Aspect, grade: string): number {
  return ASPECT_INFO[aspect].grades.findIndex((g) => g.grade === grade);
}

/** Whether a grade is one of the aspect's. */
export const isGradeOf = <A extends Aspect>(aspect: A, grade: string): grade is GradeOf<A> => gradeIndex(aspect, grade) >= 0;

const from = (aspect: Aspect, grade: string, edge: string) => gradeIndex(aspect, grade) >= gradeIndex(aspect, edge);
export const isClean = (aspect: Aspect, grade: string): boolean => {
  const at = gradeIndex(aspect, grade);
  return at >= 0 && at <= gradeIndex(aspect, ASPECT_INFO[aspect].cleanTo);
};
export const isStopped = (aspect: Aspect, grade: string): boolean => from(aspect, grade, ASPECT_INFO[aspect].stoppedFrom);
export const isSevere = (aspect: Aspect, grade: string): boolean => from(aspect, grade, ASPECT_INFO[aspect].severeFrom);

/** The grades of an aspect at which it does not do its work, for a query. */
export const stoppedGrades = (aspect: Aspect): string[] =>
  ASPECT_INFO[aspect].grades.map((g) => g.grade).filter((g) => isStopped(aspect, g));

/** A grade's word: "Part iced"; one that is none of the aspect's as it was written. */
export const gradeLabel = (aspect: Aspect, grade: string): string =>
  aspectInfo(aspect)?.grades.find((g) => g.grade === grade)?.label ?? grade;

/** What was found, within a sentence. */
export const gradeWords = (f: { aspect: Aspect; grade: string | null }): string =>
  f.grade === null ? 'not looked at' : gradeLabel(f.aspect, f.grade).toLowerCase();
