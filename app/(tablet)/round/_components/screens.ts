export { AddUnit } from './add-unit';
export { CloseVisit } from './close/close-visit';
export { EntriesPage } from './entries-page';
export { TagPage } from './tag-page';
export { UnitPage } from './unit/unit-page';
