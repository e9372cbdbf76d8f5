import 'server-only';
import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto';
import { env } from '../process/env';

const mac = (...parts: string[]) => createHmac('sha256', env().NEXTAUTH_SECRET).update(parts.join('\n')).digest('base64url');

/** A short mark of something personal that only this shop can make, for logs: the same each time, and nobody's name. */
export const markOf = (text: string): string => mac('mark', text).slice(0, 10);

/**
 * A device on which an account has signed in carries a cookie that only this server can write (OWASP's "device cookie"):
 * its wrong tries are counted apart, so strangers' tries do not shut the account out there. It opens nothing.
 */
export const KNOWN_DEVICE_DAYS = 365;
const normal = (email: string) => email.trim().toLowerCase();

export const knownDeviceCookie = (email: string): string => `rimebook-device-${mac('cookie', normal(email)).slice(0, 12)}`;

export function newKnownDevice(email: string): string {
  const id = randomBytes(18).toString('base64url');
  return `${id}.${mac('device', normal(email), id)}`;
}

/** The device's own mark, or null where the cookie is missing, another account's, or not of our making. */
export function readKnownDevice(email: string, cookie: string | undefined): string | null {
  const [id = '', signature = ''] = cookie?.split('.') ?? [];
  const ours = Buffer.from(mac('device', normal(email), id));
  const theirs = Buffer.from(signature);
  return id && ours.length === theirs.length && timingSafeEqual(ours, theirs) ? id : null;
}
