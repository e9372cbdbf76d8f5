import type { Page } from '@playwright/test';

/** Before the round is opened; what it gives makes the tablet's storage full, or not full any more. */
export async function canBeFull(page: Page): Promise<(full: boolean) => Promise<void>> {
  await page.addInitScript(() => {
    const add = IDBObjectStore.prototype.add;
    IDBObjectStore.prototype.add = function (...given: Parameters<typeof add>) {
      if ((window as unknown as { full?: boolean }).full) throw new DOMException('full', 'QuotaExceededError');
      return add.apply(this, given);
    };
  });
  return (full) => page.evaluate((full) => void ((window as unknown as { full?: boolean }).full = full), full);
}
