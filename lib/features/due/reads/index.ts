import 'server-only';

export { dueCounts, overdueNow } from './counts';
export { toGoBackTo } from './go-back';
export { duePage, type DueCursor } from './page';
export { zonesOnFile, type DueFilter } from './where';
