import type { Page } from '@playwright/test';

type Counted = { taps: number; keys: number; later: number };
type Counting = typeof globalThis & { counted: Counted };

/** Before the round is opened: counts what a finger does. Digits typed are counted by themselves: a number is one mark on paper. */
export async function countTaps(page: Page): Promise<{
  so: () => Promise<Pick<Counted, 'taps' | 'keys'>>;
  anew: () => Promise<void>;
  /** Lets the tablet's clock go on by this much. */
  wait: (minutes: number) => Promise<void>;
}> {
  await page.addInitScript(() => {
    const counted: Counted = ((globalThis as Counting).counted = { taps: 0, keys: 0, later: 0 });
    const now = Date.now.bind(Date);
    Date.now = () => now() + counted.later;
    // As the click leaves the page, not as it comes: one whose button moved away under it is stopped by Playwright on its way
    // in and made anew, and would count twice.
    addEventListener('click', (e) => {
      if (!e.isTrusted) return;
      const key = (e.target as HTMLElement).closest<HTMLElement>('[data-key]');
      if (key && /^[\d.±⌫]$/.test(key.innerText.trim())) counted.keys++;
      else counted.taps++;
    });
  });
  return {
    so: () => page.evaluate(() => (globalThis as Counting).counted),
    anew: () => page.evaluate(() => void Object.assign((globalThis as Counting).counted, { taps: 0, keys: 0 })),
    wait: (minutes) => page.evaluate((ms) => void ((globalThis as Counting).counted.later += ms), minutes * 60_000),
  };
}

/** How far the page in hand can be scrolled, in screens. */
export const screensToScroll = (page: Page): Promise<number> =>
  page.evaluate(() => Math.max(0, document.documentElement.scrollHeight - innerHeight) / innerHeight);
