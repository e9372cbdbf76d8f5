import { addDays, todayIn, type LocalDate } from '../../lib/core/calendar';
import { ownLimits } from '../../lib/core/evidence';
import { DEFAULT_POLICY } from '../../lib/core/intervals';
import { RandomStream } from '../../lib/core/numerics/random';
import { TASK_KINDS } from '../../lib/core/tasks/kinds';
import { assemble, shopSettings } from './shop/assemble';
import { CITY } from './shop/kitchens';
import { people } from './shop/people';
import type { Shop } from './save';
import { foulingRow } from '../../lib/features/evidence/verbs/save-belief';
import { Learning } from './simulate/learn';
import { customerStories } from './simulate/customer-stories';
import { jobStories } from './simulate/job-stories';
import { liveThrough, stagger } from './simulate/history';
import { reviewChanges } from './simulate/owner';
import { refrigerantBook } from './simulate/refrigerant';
import { bookAhead } from './simulate/upcoming';
import { waterStory } from './simulate/water-story';
import { beginWorld, type Out } from './simulate/world';

/** A year and a half of record. */
const RECORD_DAYS = 548;
export const SEED = 20260;

/** `recordDays`: how far the record goes back; a test may ask for less. */
export type MakeOptions = { now: Date; seed?: number; hashes?: Record<string, string>; recordDays?: number };

/** What is really so of a unit, for tests: nothing of it is on file. */
export type TrueRate = { unitId: string; kitchenId: string; ratePerDay: number };

/** The whole shop as rows, from a seed and a date: the same every time, password hashes aside. */
export function makeShop({ now, seed = SEED, hashes = {}, recordDays = RECORD_DAYS }: MakeOptions): {
  shop: Shop;
  out: Out;
  truth: TrueRate[];
} {
  const today = todayIn(CITY.timeZone, now.getTime());
  const start = addDays(today, -recordDays);
  const users = people(hashes, new RandomStream(seed, 'people'));
  const { placed, ...rows } = assemble(seed, start);
  const world = beginWorld(seed, start, today, placed, users);
  stagger(world);
  const learning = new Learning(world);
  const fits = [180, 360, recordDays - 8].map((d) => addDays(start, d));
  const pending = liveThrough(world, (booking, seen) => {
    if (fits[0] !== undefined && booking.date >= fits[0]) learning.fit(fits.shift() as LocalDate);
    learning.after(booking, seen);
  });
  bookAhead(world, pending);
  const beliefs = learning.beliefs();
  const owner = users.find((u) => u.role === 'owner')?.id as string;
  reviewChanges(learning.ruleChanges, rows.tasks, owner, today, new RandomStream(seed, 'owner'));
  const fouling = beliefs.map((b) => ({
    ...foulingRow(b, ownLimits(b.file.unit, b.evidence.baseline, b.file.conditions, DEFAULT_POLICY.ownLimits)),
    oldDeposit: learning.oldDeposit.get(b.file.unitId) ?? null,
  }));
  const shop: Shop = {
    settings: shopSettings,
    users,
    kinds: TASK_KINDS,
    ...rows,
    estimates: learning.estimates,
    fouling,
    foresights: learning.foresights,
    ruleChanges: learning.ruleChanges,
    refrigerant: refrigerantBook(world, seed),
    priors: learning.priors,
    stories: jobStories(world, now),
    customerStories: customerStories(world, now),
  };
  // After the rest, so that nothing else of the shop comes out differently for it.
  const water = waterStory(world);
  shop.units.push(water.unit);
  shop.tasks.push(...water.tasks);
  shop.estimates.push(...water.estimates);
  const truth = world.kitchens.flatMap((k) =>
    k.units.map((u) => ({ unitId: u.row.id as string, kitchenId: u.row.kitchenId, ratePerDay: u.truth.ratePerDay })),
  );
  return { shop, out: world.out, truth };
}
