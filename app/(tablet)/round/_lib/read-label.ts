import { TAG_FORM } from '@/lib/core/equipment/limits';

/** An address that ends in #/tag/CODE, or the code alone. */
const ADDRESS = /#\/tag\/([^/?#\s]{1,120})$/;

/** The code in what a QR symbol says; null for one that is no label of ours: a maker's plate, a menu. */
export function codeOf(raw: string): string | null {
  const text = raw.trim();
  const code = (ADDRESS.exec(text)?.[1] ?? text).toUpperCase();
  return TAG_FORM.test(code) ? code : null;
}

export type LabelReader = (picture: HTMLVideoElement) => Promise<string | null>;

/** What a QR symbol (ISO/IEC 18004) in the picture says; null where there is none. Comes with the round, so it reads without signal and in every browser. */
export async function labelReader(): Promise<LabelReader> {
  const { BarcodeDetector } = await import('qr/decode.js');
  const detector = new BarcodeDetector({ formats: ['qr_code'] });
  return async (picture) => (await detector.detect(picture).catch(() => []))[0]?.rawValue ?? null;
}
