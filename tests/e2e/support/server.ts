import { request } from '@playwright/test';

/** Steers this worker's server under test (scripts/e2e-server.mjs). Every call waits until it is done. */
async function ask(command: string, wish: Record<string, string> = {}) {
  const api = await request.newContext();
  try {
    const params = { ...wish, lane: process.env.TEST_PARALLEL_INDEX ?? '0' };
    const answer = await api.post(`http://127.0.0.1:${process.env.E2E_CONTROL_PORT}/${command}`, { params, timeout: 300_000 });
    const said = await answer.text();
    if (!answer.ok()) throw new Error(`${command}: ${said}`);
    return said;
  } finally {
    await api.dispose();
  }
}

/** A fresh shop for the tests that follow; everything done before is gone and everybody is signed out. */
export function freshShop({ shop = 'demo', clock }: { shop?: 'demo' | 'empty'; clock?: string } = {}) {
  return ask('reset', { shop, ...(clock ? { clock } : {}) });
}

/** What being offline is to a tablet: the server does not answer. The browser's own offline switch misses service workers. */
export const stopServer = () => ask('stop');

export const startServer = () => ask('start');

/** The address of the database under the shop in hand, for a test that looks where no page does. */
export const databaseUrl = () => ask('database');
