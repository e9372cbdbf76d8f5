import type { RandomStream } from '@/lib/core/numerics/random';

/** What breaks programs: signs that end things, numbers at the edges, dates that are none, and much of anything. */
const STRANGE = [
  '', ' ', '\u0000', '\r\n', '\n', '\t', '"', '""', "'", ';', ',', '|', '\\', '%', '_', '=1+1', '@SUM(A1)', '-1', '0', '-0', '1e309', 'NaN', 'Infinity',
  '9007199254740993', '0x10', '١٢', '１２', '²', 'é', 'e\u0301', '\u202e', '\ufeff', '\ud800', '😀', '<b>', '</script>', '{{x}}', '${x}', '../..', '%00', '%zz',
  'null', 'undefined', 'true', '__proto__', 'constructor', '0000-00-00', '0001-01-01', '9999-12-31', '2026-02-30', '-271821-04-20', '2026-11-27T25:00:00Z',
  'BEGIN:VEVENT', 'FREQ=DAILY', 'INTERVAL=0', 'INTERVAL=99999999', 'BYMONTHDAY=31', 'BYMONTH=2', 'BYSETPOS=-366', 'COUNT=1', 'UNTIL=19700101', 'BYDAY=54MO',
  '00000000-0000-4000-8000-000000000000', 'R290', 'reach_in', 'fryer', '12 lb 3 oz', '24:00', '7-3:30',
] as const; // prettier-ignore

const pick = <T>(random: RandomStream, all: readonly T[]): T | undefined => all[Math.floor(random.next() * all.length)];
export function oneOf<T>(random: RandomStream, all: readonly T[]): T {
  const found = all[Math.floor(random.next() * all.length)];
  if (found === undefined) throw new Error('nothing to choose from');
  return found;
}

/** A text of some pieces; one in forty is long. */
export function text(random: RandomStream, own: readonly string[] = []): string {
  const pieces = 1 + Math.floor(random.next() * 4);
  const piece = () => {
    const kind = random.next();
    if (own.length > 0 && kind < 0.5) return pick(random, own) ?? '';
    if (kind < 0.85) return pick(random, STRANGE) ?? '';
    return String.fromCharCode(...Array.from({ length: 1 + Math.floor(random.next() * 8) }, () => Math.floor(random.next() * 0x2fff)));
  };
  const all = Array.from({ length: pieces }, piece).join('');
  return random.next() < 0.025 ? all.repeat(1 + Math.floor(20_000 / (all.length + 1))) : all;
}

/** A good text with some places of it cut out, doubled, or replaced. */
export function spoiled(random: RandomStream, good: string): string {
  let s = good;
  for (let n = Math.floor(random.next() * 6); n >= 0; n--) {
    const at = Math.floor(random.next() * s.length);
    const to = at + Math.floor(random.next() * 20);
    const how = random.next();
    if (how < 0.35) s = s.slice(0, at) + s.slice(to);
    else if (how < 0.7) s = s.slice(0, at) + text(random) + s.slice(to);
    else s = s.slice(0, to) + s.slice(at);
  }
  return s;
}

/** Bytes of something good with some of them changed, cut off or added. */
export function spoiledBytes(random: RandomStream, good: Uint8Array): Uint8Array {
  const bytes = Uint8Array.from(good);
  for (let n = Math.floor(random.next() * 30); n >= 0; n--)
    bytes[Math.floor(random.next() ** 3 * bytes.length)] = Math.floor(random.next() * 256);
  const how = random.next();
  if (how < 0.2) return bytes.slice(0, Math.floor(random.next() * bytes.length));
  return how < 0.3 ? Buffer.concat([bytes, bytes]) : bytes;
}

/** JSON of any form, never deeper than asked. */
export function json(random: RandomStream, depth = 3): unknown {
  const kind = random.next();
  if (depth === 0 || kind < 0.5) return oneOf<unknown>(random, [text(random), Number(text(random)), null, true, -1, 1e308, 0, '']);
  const many = Array.from({ length: Math.floor(random.next() * 4) }, () => json(random, depth - 1));
  return kind < 0.7 ? many : Object.fromEntries(many.map((value) => [text(random).slice(0, 30), value]));
}

/** A good value with some of its parts replaced by anything. */
export function spoiledJson(random: RandomStream, good: unknown): unknown {
  if (random.next() < 0.12) return json(random);
  if (Array.isArray(good)) return good.map((part) => spoiledJson(random, part));
  if (typeof good !== 'object' || good === null) return good;
  return Object.fromEntries(
    Object.entries(good).flatMap(([key, value]) => (random.next() < 0.04 ? [] : [[key, spoiledJson(random, value)]])),
  );
}
