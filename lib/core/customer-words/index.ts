import { EN, type CustomerWords } from './en';
import { ES } from './es';
import { LANGUAGES, type Language } from './languages';

const CATALOGUE: Record<Language, CustomerWords> = { en: EN, es: ES };
export const wordsIn = (language: Language): CustomerWords => CATALOGUE[language];
/** A language asked for in an address, or else the one that stands on file. */
export const languageOr = (asked: string | undefined, otherwise: Language): Language => LANGUAGES.find((l) => l === asked) ?? otherwise;
export type { CustomerWords };
export { LANGUAGE_LABEL, LANGUAGES, type Language } from './languages';
