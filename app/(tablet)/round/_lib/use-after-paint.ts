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

/** False until the screen has been drawn once: for what may come a moment after the words. */
export function useDrawn(): boolean {
  const [drawn, set] = useState(false);
  useEffect(() => {
    const soon = setTimeout(() => set(true));
    return () => clearTimeout(soon);
  }, []);
  return drawn;
}
