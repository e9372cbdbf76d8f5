/** Languages a customer can be written to in. */
export const LANGUAGES = ['en', 'es'] as const;
export type Language = (typeof LANGUAGES)[number];
export const LANGUAGE_LABEL: Record<Language, string> = { en: 'English', es: 'Español' };
/** Of dates and figures (BCP 47). */
export const LOCALE: Record<Language, string> = { en: 'en-US', es: 'es-ES' };
