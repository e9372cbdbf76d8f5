import 'server-only';
import { AppError } from '../../../core/errors';
import { passwordProblem } from '../../../core/people/password-rule';
import { LEAKED_MARK_BYTES, markOfLeaked } from './leaked-mark';

/** In digits of sixteen. */
const MARK_LENGTH = 2 * LEAKED_MARK_BYTES;

let lists: Promise<(password: string) => boolean> | undefined;

/** The lists are half a megabyte and seldom asked: they come when they are needed. */
const leaked = () => (lists ??= readLists());

async function readLists(): Promise<(password: string) => boolean> {
  const [{ dictionary }, { LONG_LEAKED }] = await Promise.all([import('@zxcvbn-ts/language-common'), import('./long-leaked')]);
  const common = new Set(dictionary['passwords-common'].map((p) => String(p).toLowerCase()));
  const marks = Buffer.from(LONG_LEAKED, 'base64').toString('hex');
  const long = new Set(Array.from({ length: marks.length / MARK_LENGTH }, (_, i) => marks.slice(i * MARK_LENGTH, (i + 1) * MARK_LENGTH)));
  return (password) => common.has(password) || long.has(markOfLeaked(password));
}

const withoutEdges = (text: string) => text.replace(/^[^\p{L}]+|[^\p{L}]+$/gu, '');
/** What is typed twice, or thrice, is guessed as once. */
const once = (text: string) => /^(.+?)\1+$/u.exec(text)?.[1] ?? text;

/**
 * Whether a password is one of some fifty thousand that leak most often, one of the twenty thousand commonest that are long enough by
 * themselves, or such a one with digits and marks around it, or again and again. Letters' size is passed over.
 */
export async function isLeaked(password: string): Promise<boolean> {
  const typed = password.toLowerCase();
  const has = await leaked();
  return [typed, once(typed), withoutEdges(typed), once(withoutEdges(typed))].some((p) => p.length > 0 && has(p));
}

/** Whether a password that is right may stay: by the rule as it is today, and by what has leaked. */
export const mayStay = async (password: string, about: { name: string; email: string }): Promise<boolean> =>
  passwordProblem(password, about) === null && !(await isLeaked(password));

/** @throws AppError invalid */
export async function refuseLeaked(password: string): Promise<void> {
  if (await isLeaked(password))
    throw new AppError(
      'invalid',
      'That password stands in the lists that are tried first, or is one of those with a little around it.',
      'password',
    );
}
