import 'server-only';
import { createHash, randomBytes } from 'node:crypto';

/** 256 random bits for an address; only its hash is kept. */
export const newToken = () => randomBytes(32).toString('base64url');
export const hashToken = (token: string) => createHash('sha256').update(token).digest('hex');
export const looksLikeToken = (text: string) => /^[A-Za-z0-9_-]{43}$/.test(text);
/** Of a page's calendar address: made from the page's own, and no way back, so that a calendar's keeper cannot open the page. */
export const calendarToken = (token: string) => createHash('sha256').update(`calendar of ${token}`).digest('base64url');
