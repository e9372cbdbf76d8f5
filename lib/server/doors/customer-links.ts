import 'server-only';
import { notePageOpening, pageByLink, type OpenPage } from '../../features/customer-pages/reads/page-link';
import { noteQuoteOpening } from '../../features/jobs/reads/quotes';
import { noteQuarterOpening } from '../../features/quarters/reads/quarter-report';
import { noteOpening } from '../../features/reports/reads/report-link';
import { isAppError } from '../../core/errors';
import { now } from '../process/clock';
import { db } from '../process/db';
import { throttle } from './throttle';

/** Whether this address has asked too often; a page then shows what it shows for any link that does not open. */
export const throttled = (kind: string, most: number): Promise<boolean> =>
  throttle(kind, most).then(
    () => false,
    (e: unknown) => {
      if (isAppError(e)) return true;
      throw e;
    },
  );

/** What a customer's link opens; null for any that does not open, and for whoever asks too often. */
export const openLink = async <T extends object>(read: () => Promise<T | null>): Promise<T | null> =>
  (await throttled('link', 60)) ? null : read();

export const countOpening = (id: string) => noteOpening(db(), id, now());
export const countQuarterOpening = (id: string) => noteQuarterOpening(db(), id, now());
export const countQuoteOpening = (id: string) => noteQuoteOpening(db(), id, now());
export const countPageOpening = (id: string) => notePageOpening(db(), id, now());

/** Far more than a kitchen opens in a quarter of an hour. */
const MOST_PAGES = 240;

/** The customer's page behind a link; null for any that does not open, and for whoever asks too often. */
export const openPage = async (token: string | undefined): Promise<OpenPage | null> =>
  (await throttled('yours', MOST_PAGES)) ? null : pageByLink(db(), token ?? '', now());
