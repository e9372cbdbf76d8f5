import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmodSync, chownSync, cpSync, existsSync, mkdirSync, renameSync, statSync } from 'node:fs';
import path from 'node:path';
import { root } from './paths.mjs';
import { Plain } from './say.mjs';

// PostgreSQL refuses to run as root. Started by root it runs as the owner of the project's folder
// or, where root owns that too, as "nobody".
const NOBODY = 65534;

/** The account PostgreSQL runs under: nothing to change for an ordinary user. @returns {{ uid?: number, gid?: number }} */
export function serverAccount() {
  if (process.getuid?.() !== 0) return {};
  const { uid, gid } = statSync(root);
  return uid === 0 ? { uid: NOBODY, gid: NOBODY } : { uid, gid };
}

/** Give a path to the account PostgreSQL runs under. */
export function hand(place) {
  const { uid, gid } = serverAccount();
  if (uid !== undefined) chownSync(place, uid, gid);
}

/** Whether the server's account can enter a folder or run a program: each folder above has to let it through. */
function canUse(place) {
  const account = serverAccount();
  if (account.uid === undefined) return true;
  return spawnSync('/bin/sh', ['-c', 'test -x "$1"', 'sh', place], { ...account, cwd: '/' }).status === 0;
}

/** The place itself or the nearest folder above it that exists. */
const standing = (place) => (existsSync(place) ? place : standing(path.dirname(place)));

/**
 * A place like `folder` that the server's account can enter.
 * Under a folder closed to it (a clone in root's own home) that is /var/lib/rimebook/<hash of the path>,
 * which only root can make and which outlives a restart. Opening root's home to everyone would be unsafe.
 */
function elsewhere(folder) {
  const key = createHash('sha256').update(root).digest('hex').slice(0, 12);
  return path.join('/var/lib/rimebook', key, path.basename(folder));
}

/**
 * Where PostgreSQL's files can live: `folder` itself wherever its account can enter it.
 * @param {string} folder @returns {{ folder: string, moved: boolean }}
 */
export function reachable(folder) {
  return canUse(standing(folder)) ? { folder, moved: false } : { folder: elsewhere(folder), moved: true };
}

/** Make a folder and let the server's account pass through it, whatever the umask. */
export function openFolder(folder) {
  if (existsSync(folder)) return;
  try {
    if (!existsSync(path.dirname(folder))) openFolder(path.dirname(folder));
    mkdirSync(folder, { recursive: true });
    chmodSync(folder, 0o755);
  } catch (error) {
    throw new Plain(
      `No folder for PostgreSQL: ${error.message}\n` +
        'Move the project to a folder that other accounts may enter, run it as an ordinary user, or set DATABASE_URL.',
    );
  }
}

/** Make a folder that only the server's account can read. */
export function privateFolder(folder) {
  mkdirSync(folder, { mode: 0o700 });
  hand(folder);
}

/**
 * PostgreSQL's programs at a place its account can run them from: where they are, or a copy.
 * @param {string} native the package's folder with bin, lib and share
 * @param {string} version names the copy, so that another version is copied anew
 */
export function runnable(native, version) {
  if (canUse(path.join(native, 'bin', 'postgres'))) return native;
  const copy = elsewhere(`programs-${version}`);
  if (!existsSync(copy)) {
    openFolder(path.dirname(copy));
    // Copied under another name first: a copy cut short is never taken for a whole one.
    const partial = `${copy}.${process.pid}`;
    cpSync(native, partial, { recursive: true, verbatimSymlinks: true });
    if (spawnSync('chmod', ['-R', 'a+rX', partial]).status !== 0) throw new Plain(`${partial} could not be opened to PostgreSQL.`);
    renameSync(partial, copy);
  }
  return copy;
}
