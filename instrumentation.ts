export async function register() {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return;
  const { watchPeers } = await import('./lib/server/peer');
  watchPeers();
  const { startJobs } = await import('./lib/jobs/start');
  await startJobs();
}
