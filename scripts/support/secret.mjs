import { randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { keep } from './paths.mjs';

/** The key that signs sessions: made once for this copy of the project, readable by its owner only. */
export function secret() {
  const file = path.join(keep, 'secret');
  if (!existsSync(file)) {
    mkdirSync(keep, { recursive: true });
    writeFileSync(file, randomBytes(48).toString('base64url'), { mode: 0o600, flag: 'wx' });
  }
  return readFileSync(file, 'utf8');
}
