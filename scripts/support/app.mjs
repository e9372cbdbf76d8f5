import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { fingerprint, readStamp } from './fingerprint.mjs';
import { waitForLock } from './lock.mjs';
import { inProject, keep, nextBin, prismaBin } from './paths.mjs';
import { endChild, node, start } from './run.mjs';
import { Plain } from './say.mjs';

const quiet = { NEXT_TELEMETRY_DISABLED: '1' };

/** What a build is made from. */
const SOURCES = [
  ...['app', 'lib', 'public', 'prisma/schema.prisma', 'prisma/seed/sign-ins.json'],
  ...['instrumentation.ts', 'instrumentation-client.ts', 'proxy.ts'],
  ...[
    'esbuild.config.mjs',
    'scripts/support/tablet.mjs',
    'scripts/support/lighten-server.mjs',
    'next.config.ts',
    'postcss.config.mjs',
    'tsconfig.json',
    'package-lock.json',
  ],
];

/** Make the database client from the schema, unless it stands already. @returns {Promise<boolean>} whether it was made now */
export async function ensureClient() {
  const stamp = inProject('lib/database/generated/.made-from');
  const now = fingerprint(['prisma/schema.prisma', 'package-lock.json']);
  const release = await waitForLock(path.join(keep, 'client.lock'));
  try {
    if (readStamp(stamp) === now) return false;
    await node([prismaBin, 'generate', '--no-hints']);
    writeFileSync(stamp, now);
    return true;
  } finally {
    release();
  }
}

/**
 * Build the app if its sources changed since the last build there.
 * @param {{ distDir: string, env: NodeJS.ProcessEnv }} options
 * @returns {Promise<boolean>} whether it was built now
 */
export async function ensureBuild({ distDir, env }) {
  const stamp = inProject(distDir, 'made-from');
  const now = fingerprint(SOURCES);
  const release = await waitForLock(path.join(keep, `build${distDir}.lock`), 600_000);
  try {
    if (readStamp(stamp) === now) return false;
    rmSync(stamp, { force: true });
    await node([nextBin, 'build'], { env: { ...env, ...quiet, NODE_ENV: 'production', NEXT_DIST_DIR: distDir } });
    writeFileSync(stamp, now);
    return true;
  } finally {
    release();
  }
}

/**
 * To the allocator of most Linux systems: no pool of memory for each of the server's threads, and what is free goes back to the system. The
 * compiler of database questions alone leaves 40 MB free in a pool that nobody asks again. The Dockerfile says the same.
 */
const GIVES_BACK = { MALLOC_ARENA_MAX: '2', MALLOC_TRIM_THRESHOLD_: '131072' };

/**
 * The framework's settings as they were built in, as its trimmed server is given them. Read anew from TypeScript they would bring its compiler
 * and all that only a build needs into the server's memory, and take seconds.
 */
const settingsAsBuilt = (distDir) =>
  JSON.stringify(JSON.parse(readFileSync(inProject(distDir, 'required-server-files.json'), 'utf8')).config);

/**
 * Start the app and wait until it answers.
 * @param {{ port: number, host?: string, distDir: string, env: NodeJS.ProcessEnv, onOutput?: (text: string, isError: boolean) => void }} options
 * @returns {Promise<{ child: import('node:child_process').ChildProcess, stop: () => Promise<void> }>}
 * @throws {Plain} with what it printed, when it ends or does not answer within two minutes
 */
export async function serve({ port, host = '127.0.0.1', distDir, env, onOutput = () => {} }) {
  const follow = pathToFileURL(inProject('scripts/support/follow-parent.mjs')).href;
  const args = ['--import', follow, nextBin, 'start', '-H', host, '-p', String(port)];
  const child = start(process.execPath, args, {
    env: {
      ...GIVES_BACK,
      ...env,
      ...quiet,
      NODE_ENV: 'production',
      NEXT_DIST_DIR: distDir,
      __NEXT_PRIVATE_STANDALONE_CONFIG: settingsAsBuilt(distDir),
    },
    stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
    // Its own process group: Ctrl-C reaches the caller, which ends it in order.
    detached: process.platform !== 'win32',
  });
  let printed = '';
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (text) => {
      printed = (printed + text).slice(-20_000);
      onOutput(text, stream === child.stderr);
    });
  const failed = (why) => new Plain(`${printed.trimEnd()}\n\nThe app ${why}.`);
  const deadline = Date.now() + 120_000;
  while (!(await answers(port))) {
    if (child.exitCode !== null || child.signalCode !== null) throw failed('ended before it answered');
    if (Date.now() > deadline) {
      await endChild(child);
      throw failed('did not answer within two minutes');
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  return { child, stop: () => endChild(child) };
}

/** Whether the app on this port answers and reaches its database. */
async function answers(port) {
  try {
    return (await fetch(`http://127.0.0.1:${port}/api/health`, { signal: AbortSignal.timeout(5000) })).ok;
  } catch {
    return false;
  }
}
