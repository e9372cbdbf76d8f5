'use client';

import { useEffect, useState } from 'react';

type Estimator = typeof import('@/lib/core/round/estimate-for');
let loaded: Estimator | null = null;

/** The equations, fetched once after the screen stands; null until then. */
export function useEstimator(): Estimator | null {
  const [estimator, set] = useState(loaded);
  useEffect(() => {
    if (loaded) return;
    void import('@/lib/core/round/estimate-for').then((m) => {
      loaded = m;
      set(m);
    });
  }, []);
  return estimator;
}
