// `node scripts/keep-answers.mjs [ROOM…]`: writes anew what the rooms of lib/core answer on their kept cases
// (tests/unit/ROOM/kept-answers.json), all of them without a name. For changes that are meant: read the diff before it is kept.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { root } from './support/paths.mjs';

const fileOf = (room) => path.join('tests', 'unit', room, 'kept-answers.test.ts');
const all = readdirSync(path.join(root, 'tests', 'unit')).filter((room) => existsSync(path.join(root, fileOf(room))));
const asked = process.argv.slice(2);
const unknown = asked.filter((room) => !all.includes(room));

if (unknown.length > 0) {
  console.log(`There are no kept answers of ${unknown.join(', ')}. There are of ${all.join(', ')}.`);
  process.exitCode = 1;
} else {
  const files = (asked.length > 0 ? asked : all).map(fileOf);
  const vitest = path.join(root, 'node_modules', 'vitest', 'vitest.mjs');
  const env = { ...process.env, KEEP_ANSWERS: '1' };
  process.exitCode =
    spawnSync(process.execPath, [vitest, 'run', '--project', 'unit', ...files], { cwd: root, env, stdio: 'inherit' }).status ?? 1;
}
