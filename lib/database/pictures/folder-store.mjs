import { randomUUID } from 'node:crypto';
import { mkdir, open, readdir, readFile, rename, rm } from 'node:fs/promises';
import path from 'node:path';

const PAIR = /^[0-9a-f]{2}$/;
const HASH = /^[0-9a-f]{64}$/;

/** What a folder says of a file that is not there. */
const none = (error) => {
  if (error.code === 'ENOENT') return null;
  throw error;
};

/** What is in a folder stays there when the machine falls. */
async function settle(folder) {
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/**
 * Pictures as files of a folder: each under the first two letters of its hash. The folder itself must be there, for a disk that
 * is not mounted would look like an empty one.
 * @param {string} root an absolute path @returns {import('./picture-store.mjs').PictureStore}
 */
export function folderStore(root) {
  const folderOf = (hash) => {
    if (!HASH.test(hash)) throw new Error('not the hash of a picture');
    return path.join(root, hash.slice(0, 2));
  };
  return {
    name: `folder:${root}`,
    async put(hash, bytes) {
      const folder = folderOf(hash);
      await mkdir(folder, { mode: 0o700 }).then(
        () => settle(root),
        (error) => {
          if (error.code !== 'EEXIST') throw error;
        },
      );
      // Under another name until it is whole and on the disk.
      const half = path.join(folder, `.${randomUUID()}`);
      try {
        const handle = await open(half, 'wx', 0o600);
        try {
          await handle.writeFile(bytes);
          await handle.sync();
        } finally {
          await handle.close();
        }
        await rename(half, path.join(folder, hash));
      } catch (error) {
        await rm(half, { force: true });
        throw error;
      }
      await settle(folder);
    },
    async get(hash) {
      const bytes = await readFile(path.join(folderOf(hash), hash)).catch(none);
      if (bytes === null && (await readdir(root).catch(none)) === null) throw new Error(`There is no folder ${root}.`);
      return bytes && new Uint8Array(bytes);
    },
    async remove(hash) {
      await rm(path.join(folderOf(hash), hash), { force: true });
    },
    async *list() {
      for (const pair of (await readdir(root)).filter((f) => PAIR.test(f)).sort())
        for (const file of (await readdir(path.join(root, pair))).sort()) if (HASH.test(file)) yield file;
    },
  };
}
