import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { inProject } from './paths.mjs';

const SKIP = new Set(['node_modules', 'generated', '.git']);

/** Every file under these project paths (files or folders), sorted. Paths that do not exist are left out. */
function filesUnder(paths) {
  const found = [];
  const visit = (relative) => {
    const full = inProject(relative);
    if (!existsSync(full)) return;
    if (!statSync(full).isDirectory()) return void found.push(relative);
    for (const name of readdirSync(full)) if (!SKIP.has(name)) visit(path.posix.join(relative, name));
  };
  paths.forEach(visit);
  return found.sort();
}

/** A hash of the names and contents of files: two trees with one fingerprint hold the same. */
export function fingerprint(paths, ...extra) {
  const hash = createHash('sha256');
  for (const file of filesUnder(paths)) {
    hash.update(file).update('\0');
    hash.update(readFileSync(inProject(file))).update('\0');
  }
  for (const text of extra) hash.update(String(text)).update('\0');
  return hash.digest('hex').slice(0, 16);
}

/** What a stamp file holds, or an empty string. */
export function readStamp(file) {
  return existsSync(file) ? readFileSync(file, 'utf8').trim() : '';
}
