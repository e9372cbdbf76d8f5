import { useEffect, useState } from 'react';

/** The value as it was when the screen was last drawn: what is worked out from it never holds up the key just pressed. */
export function useAfterPaint<T>(value: T): T {
  const [drawn, set] = useState(value);
  useEffect(() => {
    const soon = setTimeout(() => set(value));
    return () => clearTimeout(soon);
  }, [value]);
  return drawn;
}

/** Counts up to `most`, one a drawn screen: for long pages, of which the top is wanted at once. */
export function useSteps(first: number, most: number): number {
  const [step, set] = useState(first);
  useEffect(() => {
    if (step >= most) return;
    const soon = setTimeout(() => set(step + 1));
    return () => clearTimeout(soon);
  }, [step, most]);
  return Math.min(step, most);
}
