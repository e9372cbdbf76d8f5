import { areaNear, isFullCode, isShortCode } from './plus-code';

export type Position = { lat: number; lng: number };
type Read = { position: Position | null } | { problem: string };

const firstWord = (text: string): string => text.trim().split(/[\s,]+/)[0] ?? '';
/** Whether it is a short plus code, with or without its town: "QCJ+2VX" says where only near a place. */
export const isShortPosition = (source: string): boolean => isShortCode(firstWord(source));

/** Two numbers of at most three places before the point, each whole: no part of a longer one. */
const DEGREES = /(?<![\d.])(-?\d{1,3}(?:\.\d+)?)\s*°?\s*(?:([NS])\b)?\s*[,;\s]\s*(-?\d{1,3}(?:\.\d+)?)(?!\d)\s*°?\s*(?:([EW])\b)?/i;
/** "41,88; -87,63": a comma where others write a point. */
const DECIMAL_COMMAS = /^-?\d{1,3},\d+\s*°?\s*[NS]?\s*[,;\s]\s*-?\d{1,3},\d+\s*°?\s*[EW]?$/i;
const NO_POSITION = { problem: 'Not a position. Write it like 41.88, -87.63, or paste a plus code like 86HJV9JC+2V.' };

/**
 * A position as people paste it: "41.88, -87.63", "41.88 N 87.63 W", "41,88; -87,63", an address line of a map, or a plus code;
 * a short code is read near `near`. Empty is no position.
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
  return degreesIn(DECIMAL_COMMAS.test(text) ? text.replace(/(\d),(\d)/g, '$1.$2') : text);
}

function degreesIn(text: string): Read {
  const m = DEGREES.exec(text);
  if (!m) return NO_POSITION;
  const [found, north = '', ns, east = '', ew] = m;
  // "Suite 4, 12 Main St" has two numbers too: among words only degrees with a point are taken.
  if (/[a-z]/i.test(text.replace(found, '')) && !(north.includes('.') && east.includes('.'))) return NO_POSITION;
  const lat = signed(north, ns?.toLowerCase() === 's');
  const lng = signed(east, ew?.toLowerCase() === 'w');
  if (Math.abs(lat) > 90 || Math.abs(lng) > 180) return { problem: 'Degrees run to 90 north or south and 180 east or west.' };
  return { position: { lat, lng } };
}

/** South and west are below zero, whether a sign says so too or not. */
const signed = (degrees: string, below: boolean): number => (below ? -Math.abs(Number(degrees)) : Number(degrees));

function centre(code: string, near: Position): Position {
  const a = areaNear(code, near);
  const round = (x: number) => Number(x.toFixed(6));
  return { lat: round((a.latLo + a.latHi) / 2), lng: round((a.lngLo + a.lngHi) / 2) };
}

/** "41.88000, -87.63000": to about a metre. */
export const writePosition = (p: { lat: number | null; lng: number | null }): string =>
  p.lat === null || p.lng === null ? '' : `${Number(p.lat.toFixed(5))}, ${Number(p.lng.toFixed(5))}`;
