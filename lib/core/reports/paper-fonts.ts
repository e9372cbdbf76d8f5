/**
 * Letters of everything on paper: Noto Sans, whole, for Latin of every language, Vietnamese, Greek and Cyrillic. Chinese, Japanese,
 * Korean, Arabic and Hebrew letters are not among them.
 */
export const PAPER_FONT = 'Noto Sans';

/** Stands where a run of letters is not among them. */
export const NO_LETTERS = '[?]';

/** The text with what has no letter in the font put as `NO_LETTERS`, a run of it once. Blanks and marks of control stay. */
export function lettersIn(text: string, has: (codePoint: number) => boolean): string {
  let out = '';
  for (const letter of text) {
    const fits = /[\s\p{C}]/u.test(letter) || has(letter.codePointAt(0) ?? 0);
    if (fits) out += letter;
    else if (!out.endsWith(NO_LETTERS)) out += NO_LETTERS;
  }
  return out;
}

/** Where each weight is found under `node_modules`. */
export const PAPER_FONT_FILES = [
  { weight: 400, file: '@expo-google-fonts/noto-sans/400Regular/NotoSans_400Regular.ttf' },
  { weight: 700, file: '@expo-google-fonts/noto-sans/700Bold/NotoSans_700Bold.ttf' },
] as const;
