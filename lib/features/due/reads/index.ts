import 'server-only';

export { dueCounts, type DueCounts } from './counts';
export { toGoBackTo, type GoBack } from './go-back';
export { duePage, type DueCursor, type DueKitchen, type DueTask } from './page';
export { zonesOnFile, type DueFilter } from './where';
