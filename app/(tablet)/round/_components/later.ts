import { later } from '../_lib/later';

// What the first screens do without, in one piece: the round and a visit stand at once, the rest comes a moment after them.
const screens = () => import('./screens');
const unit = later(() => screens().then((m) => m.UnitPage));
const close = later(() => screens().then((m) => m.CloseVisit));
const add = later(() => screens().then((m) => m.AddUnit));
const entries = later(() => screens().then((m) => m.EntriesPage));
const tag = later(() => screens().then((m) => m.TagPage));

export const [UnitPage, CloseVisit, AddUnit, EntriesPage, TagPage] = [unit.Page, close.Page, add.Page, entries.Page, tag.Page];

/** Makes them ready: a tap then waits for nothing. */
export const readyScreens = () => Promise.allSettled([unit, close, add, entries, tag].map((s) => s.ready()));
