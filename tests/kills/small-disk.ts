import { execFileSync } from 'node:child_process';
import { chmodSync, closeSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';

const SIZE = '640m';
const PIECE = Buffer.alloc(1 << 20);

/** A disk so small that it can be filled, in memory; null where this account may not mount one. */
export function smallDisk() {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'rimebook-kills-'));
  const ballast = path.join(folder, 'ballast');
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${SIZE}`, 'tmpfs', folder], { stdio: 'ignore' });
  } catch {
    rmSync(folder, { recursive: true });
    return null;
  }
  chmodSync(folder, 0o755);
  return {
    folder,
    fill() {
      const file = openSync(ballast, 'a');
      try {
        for (;;) writeSync(file, PIECE);
      } catch {
        // No room left, as was wanted.
      } finally {
        closeSync(file);
      }
    },
    free: () => rmSync(ballast, { force: true }),
    remove() {
      execFileSync('umount', ['-l', folder]);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
