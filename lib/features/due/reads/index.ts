import 'server-only';

export { dueCounts } from './counts';
export { toGoBackTo } from './go-back';
export { duePage, type DueCursor } from './page';
export { zonesOnFile, type DueFilter } from './where';
