import { createHash } from 'node:crypto';
import { tileHost } from '../position/tile-host';

const development = process.env.NODE_ENV === 'development';

/**
 * What a page may load and run: our own files, and of scripts written into a page only those named in `inline`
 * (a nonce or a hash, CSP level 3). Charts and the framework write styles into pages, so those may stand.
 */
export const contentSecurityPolicy = (...inline: string[]): string => policy(inline, '');

/** The policy of the office's pages, which may show a map: pictures from its host too, where the shop has set one. */
export const officePolicy = (...inline: string[]): string => policy(inline, tileHost(process.env.RIMEBOOK_MAP_TILES));

function policy(inline: string[], tiles: string): string {
  return [
    "default-src 'self'",
    ["script-src 'self'", ...inline, ...(development ? ["'unsafe-eval'"] : [])].join(' '),
    "style-src 'self' 'unsafe-inline'",
    `img-src 'self' data: blob:${tiles && ` ${tiles}`}`,
    "font-src 'self'",
    `connect-src 'self'${development ? ' ws:' : ''}`,
    "worker-src 'self'",
    "manifest-src 'self'",
    "object-src 'none'",
    "base-uri 'self'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ');
}

/** Names one script by its text. */
export const hashOf = (script: string): string => `'sha256-${createHash('sha256').update(script).digest('base64')}'`;
