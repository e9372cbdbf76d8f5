import { SIGNING_EN, type SigningWords } from './en/signing';
import { SIGNING_ES } from './es/signing';
import type { Language } from './languages';

/** Apart from the rest of the catalogue: a tablet carries these and not every letter. */
const SIGNING: Record<Language, SigningWords> = { en: SIGNING_EN, es: SIGNING_ES };
export const signingIn = (language: Language): SigningWords => SIGNING[language];
export type { SigningWords };
