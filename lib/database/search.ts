import 'server-only';
import { oneLine } from '../core/wording/plain-text';

/** A pattern for ILIKE that finds the text anywhere; its own wildcards are taken literally. */
export const matching = (text: string): string =>
  `%${oneLine(text)
    .trim()
    .replace(/[\\%_]/g, (c) => `\\${c}`)}%`;
