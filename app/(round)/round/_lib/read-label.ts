/** An address that ends in #/tag/CODE, or the code alone. */
const ADDRESS = /#\/tag\/([^/?#\s]{1,120})$/;
const ALONE = /^[\p{L}\p{N}][\p{L}\p{N} ._-]{0,39}$/u;

/** The code in what a QR symbol says; null for one that is no label of ours: a maker's plate, a menu. */
export function codeOf(raw: string): string | null {
  const text = raw.trim();
  const found = ADDRESS.exec(text)?.[1];
  if (!found) return ALONE.test(text) ? text : null;
  try {
    return decodeURIComponent(found);
  } catch {
    return null;
  }
}

export type LabelReader = (picture: HTMLVideoElement) => Promise<string | null>;

/** What a QR symbol (ISO/IEC 18004) in the picture says; null where there is none. Comes with the round, so it reads without signal and in every browser. */
export async function labelReader(): Promise<LabelReader> {
  const { BarcodeDetector } = await import('qr/decode.js');
  const detector = new BarcodeDetector({ formats: ['qr_code'] });
  return async (picture) => (await detector.detect(picture).catch(() => []))[0]?.rawValue ?? null;
}
