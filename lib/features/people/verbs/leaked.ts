import 'server-only';
import { AppError } from '../../../core/errors';

let list: Promise<ReadonlySet<string>> | undefined;

/** The list is half a megabyte and seldom asked: it comes when it is needed. */
const leaked = () =>
  (list ??= import('@zxcvbn-ts/language-common').then(
    ({ dictionary }) => new Set(dictionary['passwords-common'].map((p) => String(p).toLowerCase())),
  ));

const withoutEdges = (text: string) => text.replace(/^[^\p{L}]+|[^\p{L}]+$/gu, '');
/** What is typed twice, or thrice, is guessed as once. */
const once = (text: string) => /^(.+?)\1+$/u.exec(text)?.[1] ?? text;

/**
 * Whether a password is one of some fifty thousand that leak most often, or such a one with digits and marks around it, or again and
 * again. Letters' size is passed over.
 */
export async function isLeaked(password: string): Promise<boolean> {
  const typed = password.toLowerCase();
  const set = await leaked();
  return [typed, once(typed), withoutEdges(typed), once(withoutEdges(typed))].some((p) => p.length > 0 && set.has(p));
}

/** @throws AppError invalid */
export async function refuseLeaked(password: string): Promise<void> {
  if (await isLeaked(password))
    throw new AppError(
      'invalid',
      'That password stands in the lists that are tried first, or is one of those with a little around it.',
      'password',
    );
}
