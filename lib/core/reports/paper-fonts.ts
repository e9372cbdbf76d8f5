/**
 * Letters of everything on paper: Noto Sans, whole, for Latin of every language, Vietnamese, Greek and Cyrillic. Chinese, Japanese,
 * Korean, Arabic and Hebrew letters are not among them.
 */
export const PAPER_FONT = 'Noto Sans';

/** Where each weight is found under `node_modules`. */
export const PAPER_FONT_FILES = [
  { weight: 400, file: '@expo-google-fonts/noto-sans/400Regular/NotoSans_400Regular.ttf' },
  { weight: 700, file: '@expo-google-fonts/noto-sans/700Bold/NotoSans_700Bold.ttf' },
] as const;
