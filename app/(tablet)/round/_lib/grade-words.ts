import { GRADES } from '@/lib/core/findings/grades';
import type { FindingEntry } from '@/lib/core/tablet';

/** What was found, within a sentence. */
export const gradeWords = (f: Pick<FindingEntry, 'aspect' | 'grade'>): string =>
  f.grade === null ? 'not looked at' : (GRADES[f.aspect].find((g) => g.grade === f.grade)?.label.toLowerCase() ?? f.grade);
