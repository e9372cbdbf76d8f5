import { AsyncLocalStorage } from 'node:async_hooks';

/** What Next keeps of a request while its handler runs, for the real handlers outside Next. */
export const requests = new AsyncLocalStorage<Request>();
const current = () => requests.getStore() ?? new Request('http://nowhere.invalid');

export const headers = async () => current().headers;
export async function cookies() {
  const all = (current().headers.get('cookie') ?? '')
    .split(/;\s*/)
    .filter(Boolean)
    .map((c) => ({ name: c.slice(0, c.indexOf('=')), value: decodeURIComponent(c.slice(c.indexOf('=') + 1)) }));
  return { getAll: () => all, get: (name: string) => all.find((c) => c.name === name) };
}
