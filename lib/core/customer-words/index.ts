import { EN, type CustomerWords } from './en';
import { ES } from './es';
import type { Language } from './languages';

const CATALOGUE: Record<Language, CustomerWords> = { en: EN, es: ES };
export const wordsIn = (language: Language): CustomerWords => CATALOGUE[language];
export type { CustomerWords };
export { LANGUAGES, type Language } from './languages';
