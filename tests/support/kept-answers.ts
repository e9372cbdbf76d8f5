import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, expect, it } from 'vitest';

/**
 * Kept answers: what a room answered on cases that meet its branches, held to one part in a million. They prove nothing about
 * truth: the room itself wrote them. They only make a change visible that nobody meant. What the room ought to answer is the
 * matter of the tests beside them. Where a search stops may differ from one Node to the next: a room with one says how far it may
 * carry (`relative`). A meant change is written anew by `node scripts/keep-answers.mjs ROOM…`, and read as a diff.
 */
export function keptAnswers(folder: string, cases: Readonly<Record<string, () => unknown>>, relative = 1e-6): void {
  const file = path.join(folder, 'kept-answers.json');
  const writing = process.env.KEEP_ANSWERS === '1';
  const kept: Record<string, unknown> = existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : {};
  const now: Record<string, unknown> = {};
  for (const [name, answer] of Object.entries(cases))
    it(name, () => {
      now[name] = plain(answer());
      if (!writing) expect(differences(kept[name], now[name], relative)).toEqual([]);
    });
  if (writing) afterAll(() => writeFileSync(file, printed(now)));
  else
    it('keeps an answer for each case and none besides', () => {
      expect(Object.keys(kept)).toEqual(Object.keys(cases));
    });
}

const DIGITS = 7;
/** Sums that should come to nothing come to nothing but rounding. */
const ABSOLUTE = 1e-9;

/** As it would stand in JSON, with what JSON has no word for said in words, and numbers to seven digits. */
function plain(x: unknown): unknown {
  if (typeof x === 'number') return Number.isFinite(x) ? Number(x.toPrecision(DIGITS)) : String(x);
  if (x instanceof Date) return x.toISOString();
  if (x instanceof Map || x instanceof Set) return [...x].map(plain);
  if (x instanceof Error) return `${x.name}: ${x.message}`;
  if (ArrayBuffer.isView(x)) return Array.from(x as Float64Array, plain);
  if (Array.isArray(x)) return x.map((one) => plain(one) ?? null);
  if (typeof x === 'function') return undefined;
  if (typeof x !== 'object' || x === null) return x;
  if ('level' in x && 'value' in x && 'lo' in x && 'hi' in x) return figure(x);
  return Object.fromEntries(
    Object.entries(x)
      .map(([key, value]) => [key, plain(value)])
      .filter(([, value]) => value !== undefined),
  );
}

/** A figure on one line: value, ends, and whatever else it carries beside its level. */
function figure(x: object): unknown[] {
  const { value, lo, hi, ...rest } = { value: NaN, lo: NaN, hi: NaN, ...x };
  const more = Object.entries(rest).filter(([key, of]) => key !== 'level' || of !== 0.8);
  return [value, lo, hi, ...(more.length > 0 ? [Object.fromEntries(more)] : [])].map(plain);
}

/** Where two answers differ, each with its place, what was kept and what is now. */
function differences(kept: unknown, now: unknown, relative: number, at = ''): string[] {
  const told = () => [`${at || 'all of it'}: kept ${JSON.stringify(kept)}, now ${JSON.stringify(now)}`];
  if (typeof kept === 'number' && typeof now === 'number')
    return Math.abs(kept - now) <= relative * Math.max(Math.abs(kept), Math.abs(now)) + ABSOLUTE ? [] : told();
  if (typeof kept !== 'object' || typeof now !== 'object' || kept === null || now === null) return kept === now ? [] : told();
  if (Array.isArray(kept) !== Array.isArray(now)) return told();
  const [before, after] = [new Map(Object.entries(kept)), new Map(Object.entries(now))];
  return [...new Set([...before.keys(), ...after.keys()])].flatMap((key) =>
    differences(before.get(key), after.get(key), relative, at ? `${at}.${key}` : key),
  );
}

/** One line for each thing that a case answers, so that a diff shows what has changed and no more. */
function printed(cases: Record<string, unknown>): string {
  const field = ([key, value]: [string, unknown]) => `    ${JSON.stringify(key)}: ${JSON.stringify(value)}`;
  const one = ([name, answer]: [string, unknown]) =>
    typeof answer === 'object' && answer !== null && !Array.isArray(answer)
      ? `  ${JSON.stringify(name)}: {\n${Object.entries(answer).map(field).join(',\n')}\n  }`
      : `  ${JSON.stringify(name)}: ${JSON.stringify(answer)}`;
  return `{\n${Object.entries(cases).map(one).join(',\n')}\n}\n`;
}
