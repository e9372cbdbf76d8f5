import { useEffect, useState } from 'react';

const WIDE = '(min-width: 640px)';

/** Whether there is room for two things beside one another: a tablet, not a phone. */
export function useWide(): boolean {
  const [wide, set] = useState(() => window.matchMedia(WIDE).matches);
  useEffect(() => {
    const query = window.matchMedia(WIDE);
    const look = () => set(query.matches);
    query.addEventListener('change', look);
    return () => query.removeEventListener('change', look);
  }, []);
  return wide;
}
