import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { entrances } from '../../e2e/access/entrances';
import { answersTo } from '../../e2e/access/knock';
import { ACTIONS, PAGES, ROUTES } from '../../e2e/access/table';

// The files in which the framework names what it compiled, as it writes them: two honest ways in and four planted ones.
// The table of access goes by those of the real build (tests/e2e/access.spec.ts): a way in without a row fails there.
const found = entrances(path.join(import.meta.dirname, 'planted'));
const without = (table: object, names: string[]) => names.filter((name) => !Object.keys(table).includes(name));

describe('a way in that nobody wrote a row for is seen', () => {
  it('a page that is no .tsx', () => expect(without(PAGES, found.pages)).toEqual(['/planted-page']));

  it('a route in a file that is no .ts', () => {
    const known = Object.keys(ROUTES).map((r) => r.split(' ')[1] ?? '');
    expect(found.routes.filter((r) => !known.includes(r))).toEqual(['/planted']);
  });

  it('an action in a file of another name, and one inside a page', () => {
    const names = without(
      ACTIONS,
      found.actions.map((a) => a.name),
    );
    expect(names.toSorted()).toEqual(['people/people.actions planted', 'planted-page/page $$RSC_SERVER_ACTION_0']);
  });

  it('and what has its row is not', () => {
    expect(found.pages).toContain('/due');
    expect(found.actions.map((a) => a.name)).toContain('people/actions addPerson');
    expect(found.others).toEqual([]);
  });
});

it('a second method of a route that is guarded is found by asking', async () => {
  // As a route with GET alone, and the same with a DELETE that nobody guards.
  const server = createServer((request, response) => {
    const planted = request.url === '/planted' && request.method === 'DELETE';
    response.writeHead(request.method === 'GET' ? 401 : planted ? 200 : 405).end(planted ? 'gone' : '');
  });
  await new Promise<void>((done) => void server.listen(0, '127.0.0.1', done));
  const base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const ask = async (address: string, { method = 'GET' } = {}) => {
    const reply = await fetch(base + address, { method });
    const text = await reply.text();
    return { status: () => reply.status, text: async () => text };
  };
  const asks = { fetch: ask, get: (address: string) => ask(address) } as never;
  try {
    const methods = async (address: string) => {
      const all = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE'];
      const answered = await Promise.all(all.map((method) => answersTo(asks, method, address)));
      return all.filter((_, i) => answered[i]);
    };
    expect(await methods('/api/find')).toEqual(['GET']);
    expect(await methods('/planted')).toEqual(['GET', 'DELETE']);
  } finally {
    server.closeAllConnections();
    await new Promise((done) => server.close(done));
  }
});
