import { counted } from '@/lib/core/wording/counted';

/** "3 entries and 1 picture"; empty where there is neither. */
export const unsentWords = ({ entries, pictures }: { entries: number; pictures: number }): string =>
  [entries ? counted(entries, 'entry', 'entries') : '', pictures ? counted(pictures, 'picture') : ''].filter(Boolean).join(' and ');
