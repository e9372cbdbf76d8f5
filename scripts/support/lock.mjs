import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/** Whether a process is running. Another account's process counts too. */
export function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}

/**
 * Take a lock file for this process. A lock whose owner died counts as free.
 * @param {string} file
 * @param {object} [facts] kept in the file beside the process id, for whoever finds it taken
 * @returns {{ taken: true, release: () => void } | { taken: false, owner: { pid: number } & Record<string, unknown> }}
 */
export function lock(file, facts = {}) {
  mkdirSync(path.dirname(file), { recursive: true });
  for (let i = 0; ; i++) {
    try {
      writeFileSync(file, JSON.stringify({ pid: process.pid, ...facts }), { flag: 'wx' });
      return { taken: true, release: () => rmSync(file, { force: true }) };
    } catch (error) {
      if (error.code !== 'EEXIST') throw error;
    }
    const owner = readOwner(file);
    if (owner && owner.pid !== process.pid && isAlive(owner.pid) && isOurs(owner.pid)) return { taken: false, owner };
    // An empty file may be a lock being written just now: look once more before taking it over.
    if (owner || i > 3) rmSync(file, { force: true });
    else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 50);
  }
}

/** Wait for a lock, at most `within` ms. @returns {Promise<() => void>} its release */
export async function waitForLock(file, within = 120_000) {
  const deadline = Date.now() + within;
  for (;;) {
    const answer = lock(file);
    if (answer.taken) return answer.release;
    if (Date.now() > deadline) throw new Error(`Process ${answer.owner.pid} holds ${file} for too long.`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

function readOwner(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return undefined;
  }
}

/** After a restart of the machine the same number may be another program: only a Node process can hold a lock. */
function isOurs(pid) {
  const name = `/proc/${pid}/cmdline`;
  return !existsSync(name) || /node/.test(readFileSync(name, 'utf8').split('\0')[0]);
}
