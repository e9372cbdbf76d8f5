/**
 * Letters of everything on paper, each family asked for what those before it do not have: the product's own face, then Noto
 * Sans for Vietnamese, Greek and Cyrillic names. Chinese, Japanese, Korean, Arabic, Hebrew and Indic letters are not among them.
 */
const FILES = [
  'atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin',
  'atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext',
  'noto-sans/files/noto-sans-latin-ext',
  'noto-sans/files/noto-sans-vietnamese',
  'noto-sans/files/noto-sans-greek',
  'noto-sans/files/noto-sans-greek-ext',
  'noto-sans/files/noto-sans-cyrillic',
  'noto-sans/files/noto-sans-cyrillic-ext',
] as const;

const familyOf = (file: string) => file.slice(file.lastIndexOf('/') + 1);

export const PAPER_FONT: string[] = FILES.map(familyOf);

/** Where each is found under the packages' own folder. */
export const PAPER_FONT_FILES = FILES.flatMap((file) =>
  [400, 700].map((weight) => ({ family: familyOf(file), weight, file: `${file}-${weight}-normal.woff` })),
);
