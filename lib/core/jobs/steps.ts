import { canGo, isOpen, type JobStand, type JobState } from './states';

/** What the office can say happened to a job. */
export const JOB_STEPS = [
  'looked_at',
  'quote_wanted',
  'agreed',
  'part_wanted',
  'part_ordered',
  'part_here',
  'done',
  'declined',
  'again',
] as const;
export type JobStep = (typeof JOB_STEPS)[number];

type StepInfo = {
  label: string;
  to: JobState | null;
  change?: Partial<Pick<JobStand, 'needsQuote' | 'partsWanted'>>;
  /** Asked for before it is taken. */
  why?: string;
  /** Whether it makes sense as the job stands, beyond what the states allow. */
  when: (stand: JobStand) => boolean;
};

const unquoted = ({ state }: JobStand) => isOpen(state) && state !== 'quoted';

export const STEP_INFO: Record<JobStep, StepInfo> = {
  looked_at: { label: 'It was looked at', to: 'looked_at', when: ({ state }) => state === 'asked' },
  quote_wanted: {
    label: 'A quote first',
    to: null,
    change: { needsQuote: true },
    when: ({ state, needsQuote }) => !needsQuote && (state === 'asked' || state === 'looked_at'),
  },
  agreed: {
    label: 'Agreed, do it',
    to: 'agreed',
    change: { needsQuote: false },
    when: ({ state, needsQuote }) => state === 'quoted' || state === 'looked_at' || (state === 'asked' && needsQuote),
  },
  part_wanted: {
    label: 'A part is needed',
    to: 'agreed',
    change: { partsWanted: true },
    when: ({ state, partsWanted, needsQuote }) => !partsWanted && !needsQuote && ['asked', 'looked_at', 'agreed'].includes(state),
  },
  part_ordered: {
    label: 'Part ordered',
    to: 'part_ordered',
    change: { partsWanted: true },
    when: ({ state, partsWanted }) => state === 'agreed' && partsWanted,
  },
  part_here: {
    label: 'Part is here',
    to: 'agreed',
    change: { partsWanted: false },
    when: ({ state, partsWanted }) => state === 'part_ordered' || (state === 'agreed' && partsWanted),
  },
  done: { label: 'Done', to: 'done', when: unquoted },
  declined: { label: 'Declined', to: 'declined', why: 'Say who declined it, and why.', when: ({ state }) => isOpen(state) },
  again: { label: 'Asked for again', to: 'asked', when: ({ state }) => state === 'declined' },
};

/** The steps that a job can take from where it stands. A change that leaves the state alone is one of an open job. */
export const stepsFrom = (stand: JobStand): JobStep[] =>
  JOB_STEPS.filter((step) => {
    const { to, when } = STEP_INFO[step];
    return when(stand) && (to === null || to === stand.state || canGo(stand.state, to));
  });
