import { aspectInfo, ASPECTS, type Aspect } from '../findings/grades';

/**
 * What the program itself can call a job's cause, by which the same thing found again is known: a rule that sends
 * somebody back, or a part that did not do its work. What a person asked for in words of their own has none ('').
 */
export type LookCause = `look:${Aspect}`;

const lookCause = (aspect: Aspect): LookCause => `look:${aspect}`;

/** The part whose look settles a job of this cause; undefined for any other cause. */
export const lookedForBy = (cause: string): Aspect | undefined => ASPECTS.find((a) => lookCause(a) === cause);

/** The cause behind words that name a part and its grade ("Drain and pan: frozen"), as a tablet asks for work; '' for other words. */
export function causeOfWords(what: string): LookCause | '' {
  const aspect = ASPECTS.find((a) => what.startsWith(`${aspectInfo(a).label}:`));
  return aspect ? lookCause(aspect) : '';
}
