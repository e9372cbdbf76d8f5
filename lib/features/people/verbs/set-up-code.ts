import 'server-only';
import { createHmac, timingSafeEqual } from 'node:crypto';

const digest = (text: string) =>
  createHmac('sha256', 'compare')
    .update(text.toLowerCase().replace(/[^a-z0-9]/g, ''))
    .digest();

/** Whether that is the code; dashes, blanks and case do not matter. It takes as long whatever is wrong with it. */
export const isSetUpCode = (given: string, code: string): boolean => timingSafeEqual(digest(given), digest(code));
