import { spawn } from 'node:child_process';
import { root } from './paths.mjs';
import { Plain } from './say.mjs';

/** Children that are running now, so that a signal can reach each of them. */
const children = new Set();

/** Ask every running child to end, and insist after `grace` ms. Resolves when all are gone. */
export async function endChildren(grace = 5000) {
  await Promise.all([...children].map((child) => endChild(child, grace)));
}

/** End one child: SIGTERM, then SIGKILL after `grace` ms. */
export function endChild(child, grace = 5000) {
  if (child.exitCode !== null || child.signalCode !== null) return Promise.resolve();
  return new Promise((resolve) => {
    const force = setTimeout(() => child.kill('SIGKILL'), grace);
    child.once('exit', () => {
      clearTimeout(force);
      resolve();
    });
    child.kill('SIGTERM');
  });
}

/** Start a program in the project's folder and keep track of it. */
export function start(command, args, options = {}) {
  const child = spawn(command, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'], ...options });
  children.add(child);
  child.once('exit', () => children.delete(child));
  child.once('error', () => children.delete(child));
  return child;
}

/**
 * Run a program to its end. Output is kept and shown only when it fails, unless `show` is set.
 * @param {string} command
 * @param {string[]} args
 * @param {{ env?: NodeJS.ProcessEnv, show?: boolean, mayFail?: boolean, input?: 'inherit' }} [options]
 *   `mayFail`: give back the code instead of throwing
 * @returns {Promise<{ code: number, output: string }>}
 * @throws {Plain} with the end of the output when the program fails
 */
export function run(command, args, { env = process.env, show = false, mayFail = false } = {}) {
  return new Promise((resolve, reject) => {
    const child = start(command, args, { env });
    let output = '';
    for (const stream of [child.stdout, child.stderr]) {
      stream.setEncoding('utf8').on('data', (text) => {
        output = (output + text).slice(-200_000);
        if (show) process.stdout.write(text);
      });
    }
    child.once('error', (error) => reject(new Plain(`${command} could not be started: ${error.message}`)));
    child.once('close', (code, signal) => {
      if (code === 0 || mayFail) return resolve({ code: code ?? 1, output });
      const what = [command === process.execPath ? 'node' : command, ...args].join(' ');
      const tail = show ? '' : `\n${output.trimEnd().split('\n').slice(-60).join('\n')}\n`;
      reject(new Plain(`${tail}\nThis failed (${signal ?? `code ${code}`}): ${what}`));
    });
  });
}

/** Run a script under this same Node. */
export const node = (args, options) => run(process.execPath, args, options);
