import { areaNear, isFullCode, isShortCode } from './plus-code';

export type Position = { lat: number; lng: number };
type Read = { position: Position | null } | { problem: string };

const firstWord = (text: string): string => text.trim().split(/[\s,]+/)[0] ?? '';
/** Whether it is a short plus code, with or without its town: "QCJ+2VX" says where only near a place. */
export const isShortPosition = (source: string): boolean => isShortCode(firstWord(source));

/**
 * A position as people paste it: "41.88, -87.63", "41.88 N 87.63 W", an address line of a map, or a plus code; a short code
 * is read near `near`. Empty is no position.
 */
export function readPosition(source: string, near: Position | null = null): Read {
  const text = source.trim();
  if (text === '') return { position: null };
  const code = firstWord(text);
  if (isFullCode(code)) return { position: centre(code, { lat: 0, lng: 0 }) };
  if (isShortCode(code)) {
    if (!near) return { problem: 'A short plus code needs a place near it. Give the shop its position first, or paste the whole code.' };
    return { position: centre(code, near) };
  }
  const m = /(-?\d{1,2}(?:\.\d+)?)\s*°?\s*([NS])?\s*[,;\s]\s*(-?\d{1,3}(?:\.\d+)?)\s*°?\s*([EW])?/i.exec(text);
  if (!m) return { problem: 'Not a position. Write it like 41.88, -87.63, or paste a plus code like 86HJV9JC+2V.' };
  const lat = Number(m[1]) * (/s/i.test(m[2] ?? '') ? -1 : 1);
  const lng = Number(m[3]) * (/w/i.test(m[4] ?? '') ? -1 : 1);
  if (Math.abs(lat) > 90 || Math.abs(lng) > 180) return { problem: 'Degrees run to 90 north or south and 180 east or west.' };
  return { position: { lat, lng } };
}

function centre(code: string, near: Position): Position {
  const a = areaNear(code, near);
  const round = (x: number) => Number(x.toFixed(6));
  return { lat: round((a.latLo + a.latHi) / 2), lng: round((a.lngLo + a.lngHi) / 2) };
}

/** "41.88000, -87.63000": to about a metre. */
export const writePosition = (p: { lat: number | null; lng: number | null }): string =>
  p.lat === null || p.lng === null ? '' : `${Number(p.lat.toFixed(5))}, ${Number(p.lng.toFixed(5))}`;
