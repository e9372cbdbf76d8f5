import { EN, type CustomerWords } from './en';
import { ES } from './es';
import { LANGUAGES, type Language } from './languages';

const CATALOGUE: Record<Language, CustomerWords> = { en: EN, es: ES };
export const wordsIn = (language: Language): CustomerWords => CATALOGUE[language];
/** A language asked for in an address, or else the one that stands on file. */
export const languageOr = (asked: string | undefined, otherwise: Language): Language => LANGUAGES.find((l) => l === asked) ?? otherwise;
/** What whoever has no good link is told, whatever is wrong with it, in every language: whose it was is not known. */
export const DEAD_LINK = `${EN.deadLink.text} ${ES.deadLink.text}`;
export type { CustomerWords };
export { LANGUAGE_LABEL, LANGUAGES, type Language } from './languages';
