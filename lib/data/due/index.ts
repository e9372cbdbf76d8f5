import 'server-only';

export { dueCounts, type DueCounts } from './counts';
export { duePage, type DueCursor, type DueKitchen, type DueTask } from './page';
export { zonesOnFile, type DueFilter } from './where';
