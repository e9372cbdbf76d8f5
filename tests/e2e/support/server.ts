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
export function freshShop({ shop = 'demo', clock, mail }: { shop?: 'demo' | 'empty'; clock?: string; mail?: string } = {}) {
  return ask('reset', { shop, ...(clock ? { clock } : {}), ...(mail ? { mail } : {}) });
}

/** What being offline is to a tablet: the server does not answer. The browser's own offline switch misses service workers. */
export const stopServer = () => ask('stop');

export const startServer = () => ask('start');

/** One more app server on the same database. @returns its address */
export const startSecond = () => ask('second');

export const stopSecond = () => ask('alone');

/** Ends the shop's own server as a fire would. */
export const killServer = () => ask('kill');

/** The address of the database under the shop in hand, for a test that looks where no page does. */
export const databaseUrl = () => ask('database');

/** The shop's own server, for a test that asks the system how it fares. */
export const serverProcess = async () => Number(await ask('process'));
