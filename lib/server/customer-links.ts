import 'server-only';
import { notePageOpening, pageByLink, type OpenPage } from '../features/customer-pages/reads/page-link';
import { noteQuarterOpening } from '../features/quarters/reads/quarter-report';
import { noteOpening } from '../features/reports/reads/report-link';
import { isAppError } from '../core/errors';
import { now } from './clock';
import { db } from './db';
import { throttle } from './throttle';

const DEAD = 'This link is no longer good. Use the one in the latest message, or phone the shop.';

/** What a customer's link opens, or why it does not, in words for the customer: dead, or asked too often from here. */
export async function openLink<T extends object>(read: () => Promise<T | null>): Promise<{ found: T } | { found: null; why: string }> {
  try {
    await throttle('link', 60);
    const found: T | null = await read();
    return found ? { found } : { found: null, why: DEAD };
  } catch (e) {
    if (!isAppError(e)) throw e;
    return { found: null, why: e.message };
  }
}

/** Whether this address has asked too often; a page then shows what it shows for any link that does not open. */
export const throttled = (kind: string, most: number): Promise<boolean> =>
  throttle(kind, most).then(
    () => false,
    (e: unknown) => {
      if (isAppError(e)) return true;
      throw e;
    },
  );

export const countOpening = (id: string) => noteOpening(db(), id, now());
export const countQuarterOpening = (id: string) => noteQuarterOpening(db(), id, now());
export const countPageOpening = (id: string) => notePageOpening(db(), id, now());

/** Far more than a kitchen opens in a quarter of an hour. */
const MOST_PAGES = 240;

/** The customer's page behind a link; null for any that does not open, and for whoever asks too often. */
export const openPage = async (token: string | undefined): Promise<OpenPage | null> =>
  (await throttled('yours', MOST_PAGES)) ? null : pageByLink(db(), token ?? '', now());
