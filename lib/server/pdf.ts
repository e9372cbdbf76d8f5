import 'server-only';
import path from 'node:path';
import { Font, renderToBuffer } from '@react-pdf/renderer';
import { PAPER_FONT, PAPER_FONT_FILES } from '../core/reports/paper-fonts';

type Paper = Parameters<typeof renderToBuffer>[0];

/** No word is cut in two: a name is not ours to hyphenate, and English rules are wrong for Spanish. */
const whole = (word: string) => [word];

let ready = false;
function haveFonts(): void {
  if (ready) return;
  for (const { weight, file } of PAPER_FONT_FILES)
    Font.register({ family: PAPER_FONT, fontWeight: weight, src: path.join(process.cwd(), 'node_modules', file) });
  Font.registerHyphenationCallback(whole);
  ready = true;
}

/** A document as PDF, with the letters of `PAPER_FONT` embedded as far as they are used. */
export async function renderPdf(paper: Paper): Promise<Uint8Array<ArrayBuffer>> {
  haveFonts();
  return new Uint8Array(await renderToBuffer(paper));
}

/** The same as a file that a browser shows. `name` is its name, without its ending. */
export const pdfFile = async (paper: Paper, name: string): Promise<Response> =>
  new Response(await renderPdf(paper), {
    headers: {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="${name}.pdf"`,
      'cache-control': 'private, no-store',
    },
  });
