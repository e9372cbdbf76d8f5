import type { Instrumentation } from 'next';

export async function register() {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return;
  const { collectSooner } = await import('./lib/server/process/memory');
  collectSooner();
  const { watchRequests } = await import('./lib/server/process/requests');
  watchRequests();
  const { takeTurns } = await import('./lib/server/process/take-turns');
  const { askingAddress } = await import('./lib/server/doors/address');
  takeTurns(askingAddress);
  const { readInAtFirst } = await import('./lib/server/process/read-in');
  // While it is worked on, pages are made when they are asked for.
  if (process.env.NODE_ENV === 'production') readInAtFirst();
  // Whoever wants the first paper or sends the first picture would hold up everybody while this is read in; now nobody waits yet.
  await import('sharp');
  const { startJobs } = await import('./lib/jobs/start');
  await startJobs();
}

/** A page that failed: its error page shows the framework's mark of the error, and so does the log. */
export const onRequestError: Instrumentation.onRequestError = async (error, _request, { routePath, routeType }) => {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return;
  const { log } = await import('./lib/server/process/log');
  const mark = (error as { digest?: string }).digest;
  log.error({ err: error, mark, page: routePath, kind: routeType }, 'page failed');
};
