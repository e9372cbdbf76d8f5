import { useEffect, useState } from 'react';
import type { Snapshot } from '@/lib/tablet/snapshot';

type Estimator = typeof import('@/lib/core/tablet/estimate-for');

const ready = new Map<string, Estimator>();

async function load(refrigerant: string): Promise<void> {
  if (ready.has(refrigerant)) return;
  const [estimator, { loadRefrigerants }] = await Promise.all([
    import('@/lib/core/tablet/estimate-for'),
    import('@/lib/core/refrigerants/fleet'),
  ]);
  // One that is unknown is told by the estimate itself.
  await loadRefrigerants([refrigerant]);
  ready.set(refrigerant, estimator);
}

/** The equations and one refrigerant's data; null until they are there. */
export function useEstimator(refrigerant: string): Estimator | null {
  const [, redraw] = useState('');
  useEffect(() => {
    if (ready.has(refrigerant)) return;
    let gone = false;
    void load(refrigerant)
      .then(() => gone || redraw(refrigerant))
      .catch(() => {});
    return () => {
      gone = true;
    };
  }, [refrigerant]);
  return ready.get(refrigerant) ?? null;
}

let readied: Snapshot['visits'] | null = null;
/** When nobody presses anything. */
export const idle = () =>
  new Promise<void>((go) => ('requestIdleCallback' in window ? requestIdleCallback(() => go()) : setTimeout(go, 200)));

/** Makes ready what the round's units need, while nobody presses anything, so that no reading waits for it. */
export async function readyEstimators(visits: Snapshot['visits']): Promise<void> {
  if (visits === readied) return;
  readied = visits;
  for (const refrigerant of new Set(visits.flatMap((v) => v.units.map((u) => u.refrigerant)))) {
    if (ready.has(refrigerant)) continue;
    await idle();
    await load(refrigerant).catch(() => {});
  }
}
