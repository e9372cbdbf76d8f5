import 'server-only';

/** A pattern for ILIKE that finds the text anywhere; its own wildcards are taken literally. */
export const matching = (text: string): string => `%${text.trim().replace(/[\\%_]/g, (c) => `\\${c}`)}%`;
