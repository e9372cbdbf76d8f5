import { UNIT_EVENT_LABEL, URGENCY_LABEL, type UnitEventKind, type Urgency } from '../../entries/entries';
import { ASPECT_LABEL, gradeWords, type Aspect, type Grade } from '../../findings/grades';

type Graded = { aspect: Aspect; grade: Grade | null };

/** What whoever signs on the spot reads before signing. */
export const SIGNING_EN = {
  heading: 'What was found and done',
  nothing: 'Nothing has been written yet.',
  parts: (parts: string) => `Parts: ${parts}.`,
  gone: (why: string) => `Gone: ${why}`,
  noReach: (why: string) => `Could not be reached: ${why}`,
  found: (f: Graded, left: Graded | undefined) =>
    `${ASPECT_LABEL[f.aspect]} found ${gradeWords(f)}${left ? `, left ${gradeWords(left)}` : ''}`,
  /** A kind of the shop's own has the shop's own word. */
  task: (t: { kindKey: string; label: string }) => t.label.toLowerCase(),
  done: (tasks: string) => `Done: ${tasks}`,
  notDone: (task: string, why: string) => `Not done: ${task}. ${why}`,
  food: (at: string, who: string) => `Food at ${at}, told to ${who}`,
  event: (kind: Exclude<UnitEventKind, 'note'>, note: string) => [UNIT_EVENT_LABEL[kind], note].filter(Boolean).join(': '),
  work: (what: string, urgency: Urgency) => `Work wanted: ${what} (${URGENCY_LABEL[urgency].toLowerCase()})`,
  arriving: (at: string) => `${at} on arrival`,
  leaving: (at: string) => `${at} on leaving`,
  box: (parts: string, empty: boolean) => `Box ${parts}${empty ? '; no food in it' : ''}`,
  signature: 'Signature',
  why: 'Signs that we were here and what was found; nothing more.',
  name: 'Name',
  keep: 'Keep signature',
  nobody: 'Nobody there',
  nobodyThere: 'Nobody was there to sign.',
  by: (who: string) => `Signed by ${who}.`,
  again: 'Sign again',
};
export type SigningWords = typeof SIGNING_EN;
