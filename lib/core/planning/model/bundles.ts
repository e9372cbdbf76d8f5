import { isClosed, type Job } from './model';

/** Up to this many items every permitted set is listed. */
const LIST_ALL = 7;

type Bare = Pick<Job, 'items' | 'all' | 'brings'>;

/**
 * Sets of a job's items worth trying as one visit. All permitted sets where there are few
 * items; otherwise families along `order` (most pressing first): the first one, two, three …
 * of what each group of technicians may do, and each item with what it brings.
 */
export function bundlesOf(job: Bare, order: readonly number[], allowed: ReadonlySet<number>): number[] {
  if (job.items <= LIST_ALL) {
    const bundles: number[] = [];
    for (let set = job.all; set !== 0; set = (set - 1) & job.all) if (isClosed(job as Job, set)) bundles.push(set);
    return bundles;
  }
  const found = new Set<number>();
  for (const may of allowed) {
    let prefix = 0;
    for (const item of order) {
      const set = closure(job, 1 << item);
      if ((set & ~may) !== 0) continue;
      found.add(set);
      prefix |= set;
      found.add(prefix);
    }
  }
  return [...found];
}

/** A set with everything it brings along, and what that brings. */
export function closure(job: Bare, set: number): number {
  for (;;) {
    let grown = set;
    for (let i = 0; i < job.items; i++) if ((set & (1 << i)) !== 0) grown |= job.brings[i]!;
    if (grown === set) return set;
    set = grown;
  }
}
