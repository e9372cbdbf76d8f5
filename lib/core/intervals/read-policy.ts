import { fieldOf } from '../typed/closed-set';
import { DEFAULT_POLICY, type ShopPolicy } from './policy';

/** Whether a stored value has the shape of what the program brings: numbers finite, lists of alike, objects key by key. */
function alike(given: unknown, brought: unknown): boolean {
  if (typeof brought === 'number') return typeof given === 'number' && Number.isFinite(given);
  if (Array.isArray(brought)) return Array.isArray(given) && given.length > 0 && given.every((g) => alike(g, brought[0]));
  if (typeof brought === 'object' && brought !== null) return Object.entries(brought).every(([k, v]) => alike(fieldOf(given, k), v));
  return typeof given === typeof brought;
}

/** Kinds of task that came to the program since the policy was stored bring their own longest interval. */
const withNewKinds = (key: string, given: unknown): unknown =>
  key === 'maxWeeks' && typeof given === 'object' ? { ...DEFAULT_POLICY.maxWeeks, ...given } : given;

/** The policy on file, filled up with what the program brings; a damaged value falls back to its default alone. */
export function readPolicy(stored: unknown): ShopPolicy {
  const given = (typeof stored === 'object' && stored !== null ? stored : {}) as Record<string, unknown>;
  const whole = Object.entries(DEFAULT_POLICY).map(([key, brought]) => {
    const kept = withNewKinds(key, given[key]);
    return [key, alike(kept, brought) ? kept : brought];
  });
  return Object.fromEntries(whole) as ShopPolicy;
}
