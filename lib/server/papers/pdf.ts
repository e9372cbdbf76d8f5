import 'server-only';
import path from 'node:path';
import { Font, renderToBuffer } from '@react-pdf/renderer';
import { wordsIn, type Language } from '../../core/customer-words';
import { lettersIn, NO_LETTERS, PAPER_FONT, PAPER_FONT_FILES } from '../../core/reports/paper-fonts';

type Paper = Parameters<typeof renderToBuffer>[0];

/** No word is cut in two: a name is not ours to hyphenate, and English rules are wrong for Spanish. */
const whole = (word: string) => [word];

let fonts: Promise<void> | undefined;

/** The fonts of paper, once a process. */
const haveFonts = (): Promise<void> => (fonts ??= loadFonts());

/**
 * The library keeps a glyph for good with the letters it was first drawn for, and with none where it was first drawn as a part
 * of another: after one “Č” each “C” would be seen on later papers, and be lost to whoever searches, copies or listens to them.
 * So each is met by its own letter first.
 */
async function loadFonts(): Promise<void> {
  for (const { weight, file } of PAPER_FONT_FILES) {
    const which = { fontFamily: PAPER_FONT, fontWeight: weight };
    Font.register({ family: PAPER_FONT, fontWeight: weight, src: path.join(process.cwd(), 'node_modules', file) });
    await Font.load(which);
    const font = Font.getFont(which)?.data;
    if (!font || !('characterSet' in font)) continue;
    for (const letter of font.characterSet) font.glyphForCodePoint(letter);
    // The library breaks lines by counting glyphs as letters: after one “fi” drawn as one, a line ended within a word.
    const layout = font.layout.bind(font);
    font.layout = (text: string, features?: object, ...more: unknown[]) => layout(text, { ...features, liga: false }, ...more);
  }
  Font.registerHyphenationCallback(whole);
}

/** Whether the font of paper has a letter. */
async function lettersOfFont(): Promise<(codePoint: number) => boolean> {
  await haveFonts();
  const font = Font.getFont({ fontFamily: PAPER_FONT, fontWeight: 400 })?.data;
  return (codePoint) => font === null || font === undefined || !('hasGlyphForCodePoint' in font) || font.hasGlyphForCodePoint(codePoint);
}

/**
 * What is to go on paper, with letters that its font does not have put as `NO_LETTERS`, and a sentence that says so.
 * An empty box would look like a fault of the printer, and nothing like one.
 */
export async function onPaper<T extends object>(onFile: T, language: Language): Promise<{ onFile: T; missing: string[] }> {
  const has = await lettersOfFont();
  let lost = false;
  const put = (text: string) => {
    const fitting = lettersIn(text, has);
    if (fitting !== text && fitting.includes(NO_LETTERS)) lost = true;
    return fitting;
  };
  return { onFile: mapped(onFile, put), missing: lost ? [wordsIn(language).paperLetters] : [] };
}

/** The same shape with each text put through `of`; what is neither text, list nor plain object is left as it is. */
function mapped<T>(value: T, of: (text: string) => string): T;
function mapped(value: unknown, of: (text: string) => string): unknown {
  if (typeof value === 'string') return of(value);
  if (Array.isArray(value)) return value.map((v: unknown) => mapped(v, of));
  if (typeof value !== 'object' || value === null || Object.getPrototypeOf(value) !== Object.prototype) return value;
  return Object.fromEntries(Object.entries(value).map(([k, v]: [string, unknown]) => [k, mapped(v, of)]));
}

/** A document as PDF, with the letters of `PAPER_FONT` embedded as far as they are used. */
export async function renderPdf(paper: Paper): Promise<Uint8Array<ArrayBuffer>> {
  await haveFonts();
  return new Uint8Array(await renderToBuffer(paper));
}
