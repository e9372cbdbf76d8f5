import { randomUUID } from 'node:crypto';
import { mkdir, open, readdir, readFile, rename, rm } from 'node:fs/promises';
import path from 'node:path';

// The folder is known when the app runs: a build that looked for it would take in the whole project.
const inFolder = (folder, ...parts) => path.join(/* turbopackIgnore: true */ folder, ...parts);

const PAIR = /^[0-9a-f]{2}$/;
const HASH = /^[0-9a-f]{64}$/;

/** What a folder says of a file that is not there. */
const none = (error) => {
  if (error.code === 'ENOENT') return null;
  throw error;
};

/** What is in a folder stays there when the machine falls. */
async function settle(folder) {
  const handle = await open(/* turbopackIgnore: true */ folder, 'r');
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
    return inFolder(root, hash.slice(0, 2));
  };
  return {
    name: `folder:${root}`,
    async put(hash, bytes) {
      const folder = folderOf(hash);
      await mkdir(/* turbopackIgnore: true */ folder, { mode: 0o700 }).then(
        () => settle(root),
        (error) => {
          if (error.code !== 'EEXIST') throw error;
        },
      );
      // Under another name until it is whole and on the disk.
      const half = inFolder(folder, `.${randomUUID()}`);
      try {
        const handle = await open(/* turbopackIgnore: true */ half, 'wx', 0o600);
        try {
          await handle.writeFile(bytes);
          await handle.sync();
        } finally {
          await handle.close();
        }
        await rename(/* turbopackIgnore: true */ half, inFolder(folder, hash));
      } catch (error) {
        await rm(/* turbopackIgnore: true */ half, { force: true });
        throw error;
      }
      await settle(folder);
    },
    async get(hash) {
      const bytes = await readFile(/* turbopackIgnore: true */ inFolder(folderOf(hash), hash)).catch(none);
      if (bytes === null && (await readdir(/* turbopackIgnore: true */ root).catch(none)) === null)
        throw new Error(`There is no folder ${root}.`);
      return bytes && new Uint8Array(bytes);
    },
    async remove(hash) {
      await rm(/* turbopackIgnore: true */ inFolder(folderOf(hash), hash), { force: true });
    },
    async *list() {
      for (const pair of (await readdir(/* turbopackIgnore: true */ root)).filter((f) => PAIR.test(f)).sort())
        for (const file of (await readdir(/* turbopackIgnore: true */ inFolder(root, pair))).sort()) if (HASH.test(file)) yield file;
    },
  };
}
