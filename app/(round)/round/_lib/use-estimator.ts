import { useEffect, useState } from 'react';

type Estimator = typeof import('@/lib/core/round/estimate-for');

/** The equations and one refrigerant's data, fetched once the screen stands; null until they are there. */
export function useEstimator(refrigerant: string): Estimator | null {
  const [ready, set] = useState<{ refrigerant: string; estimator: Estimator } | null>(null);
  useEffect(() => {
    let gone = false;
    const load = async () => {
      const [estimator, { loadRefrigerants }] = await Promise.all([import('@/lib/core/round/estimate-for'), import('@/lib/core/refrigerants/fleet')]);
      // One that is unknown is told by the estimate itself.
      await loadRefrigerants([refrigerant]);
      if (!gone) set({ refrigerant, estimator });
    };
    void load().catch(() => {});
    return () => {
      gone = true;
    };
  }, [refrigerant]);
  return ready?.refrigerant === refrigerant ? ready.estimator : null;
}
