import type { APIRequestContext, APIResponse } from '@playwright/test';
import type { Action } from './entrances';
import type { Ids } from './shop';

export type Whose = 'own' | 'foreign';
/** What came of it: let in, kept out, or no such way in. Anything else is a defect and throws. */
export type Answer = 'in' | 'no' | 'none';

const SHA = 'ab'.repeat(32);
const REFUSED = /Your sign-in does not open this\.|You are signed out\. Sign in again\.|It is too old, was taken back/;
const UNEXPECTED = /Something went wrong here/;

/** What stands in an address for its `[…]`, and the query it needs to be answered at all. */
function places({ shop, ...ids }: Ids, whose: Whose, file: string): Record<string, string | string[]> {
  const { visit, picture, link, page, quote, quoteId, feed, holder, device } = ids[whose];
  return {
    '/visit/[token]': link,
    '/quote/[token]': quote,
    '/quote/[token]/pdf': quote,
    '/api/quotes/[id]': shop.quote,
    '/jobs/[id]/quote': shop.job,
    '/sign-in/link/[token]': 'A'.repeat(43),
    '/api/feeds/[token]': `${feed}.ics`,
    '/visits/[id]': visit,
    '/visits/[id]/report': visit,
    '/visits/[id]/report/pdf': visit,
    '/report/[token]': 'A'.repeat(43),
    '/report/[token]/pdf': 'A'.repeat(43),
    '/report/[token]/pictures/[picture]': 'A'.repeat(43),
    '/yours/[token]': page,
    '/yours/[token]/visits/[visit]': [page, visit],
    '/yours/[token]/reports/[visit]': [page, visit],
    '/yours/[token]/reports/[visit]/pdf': [page, visit],
    '/yours/[token]/pictures/[picture]': [page, picture],
    '/yours/[token]/quotes/[quote]': [page, quoteId],
    '/yours/[token]/quotes/[quote]/pdf': [page, quoteId],
    '/yours/[token]/quarters/[quarter]': [page, '2026-01-01'],
    '/yours/[token]/quarters/[quarter]/pdf': [page, '2026-01-01'],
    '/quarter/[token]': 'A'.repeat(43),
    '/quarter/[token]/pdf': 'A'.repeat(43),
    '/customers/[id]/quarter': shop.customer,
    '/customers/[id]/quarter/pdf': [shop.customer, '?on=2026-01-01'],
    '/week/[id]': visit,
    '/api/files/[id]': picture,
    '/api/files': `?sha256=${SHA}&pieces=2&index=0`,
    '/api/labels': `?kitchen=${shop.kitchen}`,
    '/api/sync/round': `?device=${device}&holder=${holder}`,
    '/api/plans/[id]': shop.planRun,
    '/week/plan/[id]': shop.planRun,
    '/shop/archive/[id]/file': shop.customer,
    '/shop/archive/[id]/progress': shop.customer,
    '/customers/[id]': shop.customer,
    '/customers/[id]/edit': shop.customer,
    '/customers/import/[id]': shop.importRun,
    '/customers/import/[id]/problems': shop.importRun,
    '/customers/import/[id]/progress': shop.importRun,
    '/jobs/[id]': shop.job,
    '/kitchens/[id]': shop.kitchen,
    '/kitchens/[id]/edit': shop.kitchen,
    '/kitchens/new': `?customer=${shop.customer}`,
    '/owner/kitchens/[id]': shop.kitchen,
    '/units/[id]': shop.unit,
    '/units/[id]/refrigerant': shop.unit,
    '/units/[id]/choice': shop.unit,
    '/refrigerants/book/[id]': shop.cylinder,
    '/units/[id]/edit': shop.unit,
    '/units/new': `?kitchen=${shop.kitchen}`,
    '/people/[id]': shop.person,
    '/week/book': `?kitchen=${shop.kitchen}`,
    '/round-app/[file]': file,
    '/serwist/[path]': 'sw.js',
    '/api/auth/[...nextauth]': 'csrf',
  };
}

/** @throws where an address has an `[…]` that nobody said anything about */
export function addressOf(path: string, ids: Ids, whose: Whose, file: string): string {
  const place = places(ids, whose, file)[path];
  if (path.includes('[') && place === undefined) throw new Error(`Say in access/knock.ts what stands for ${path}.`);
  if (!path.includes('[')) return `${path}${[place ?? ''].flat().join('')}`;
  const left = [place ?? ''].flat();
  const filled = path.replace(/\[[^\]]+\]/g, (name) => left.shift() ?? name);
  return `${filled}${left.join('')}`;
}

// A connection that the server let go of just as it was used again is nobody's answer.
const AGAIN = { maxRetries: 2 };

const plain = async (reply: APIResponse) => `${reply.status()} ${(await reply.text()).slice(0, 300)}`;

/** Asks for a page as a browser does, or for its parts alone, as the framework does when one clicks on. */
export async function askPage(person: APIRequestContext, address: string, partsOnly = false): Promise<Answer> {
  const headers: Record<string, string> = partsOnly ? { rsc: '1' } : {};
  const ask = { ...AGAIN, maxRedirects: 0, headers };
  let reply = await person.get(address, ask);
  // Asked for parts, the framework first wants its own mark in the address.
  const marked = reply.headers().location;
  if (partsOnly && marked?.includes('_rsc')) reply = await person.get(marked, ask);
  const status = reply.status();
  const text = await reply.text();
  if (status === 403 || status === 404) return 'no';
  if (status >= 300 && status < 400) return reply.headers().location?.match(/\/sign-in(\?to=|$)/) ? 'no' : 'in';
  if (status !== 200) throw new Error(`${address}: ${status}`);
  if (!reply.headers()['cache-control']?.includes('no-store')) throw new Error(`${address}: a cache may keep it`);
  if (/NEXT_REDIRECT;[a-z]+;\/sign-in|NEXT_HTTP_ERROR_FALLBACK;40[134]|This link does not open/.test(text)) return 'no';
  return 'in';
}

export async function askRoute(person: APIRequestContext, method: string, address: string, body?: unknown): Promise<Answer> {
  const reply = await person.fetch(address, { ...AGAIN, method, maxRedirects: 0, ...(body === undefined ? {} : { data: body }) });
  const status = reply.status();
  if (status === 405) return 'none';
  if (status === 401 || status === 403 || status === 404) return 'no';
  if (status >= 500) throw new Error(`${method} ${address}: ${await plain(reply)}`);
  return 'in';
}

/** Whether a route answers to a method. A kept file is the same for every method: that is one way in, by GET. */
export async function answersTo(person: APIRequestContext, method: string, address: string): Promise<boolean> {
  const reply = await person.fetch(address, { ...AGAIN, method, maxRedirects: 0 });
  if (reply.status() === 405) return false;
  if (method === 'GET') return true;
  const kept = await person.get(address, { ...AGAIN, maxRedirects: 0 });
  return kept.status() !== 200 || (await kept.text()) !== (await reply.text());
}

/** What a tablet sends: nothing to file yet, but whose it is. */
export const syncOf = ({ device, holder }: { device: string; holder: string }) => ({
  device: { id: device, holder, name: '', appVersion: '' },
  sentAt: new Date().toISOString(),
  entries: [],
});

/** Calls an action by the id that the framework gave it, with a form, as a page would. @returns what it said */
export async function askActionText(
  person: APIRequestContext,
  origin: string,
  action: Action,
  address: string,
  form: Record<string, string> = {},
): Promise<string> {
  // React's own way of sending a state and a form: the form is part 1, and has come before part 0 speaks of it.
  const sent = new FormData();
  for (const [name, value] of Object.entries(form)) sent.append(`_1_${name}`, value);
  sent.append('0', '["$undefined","$K1"]');
  const reply = await person.post(address, {
    ...AGAIN,
    maxRedirects: 0,
    headers: { 'next-action': action.id, origin, accept: 'text/x-component' },
    multipart: sent,
  });
  const text = await reply.text();
  if (reply.status() >= 400 || UNEXPECTED.test(text)) throw new Error(`${action.name}: ${await plain(reply)}`);
  return text;
}

export const askAction = async (...asked: Parameters<typeof askActionText>): Promise<Answer> =>
  REFUSED.test(await askActionText(...asked)) ? 'no' : 'in';
