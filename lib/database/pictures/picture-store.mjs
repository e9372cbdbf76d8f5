import { createHash } from 'node:crypto';
import { folderStore } from './folder-store.mjs';
import { rowsStore } from './rows-store.mjs';
import { s3Store } from './s3-store.mjs';

// Plain JavaScript: backup and mover run in the container, where nothing is built.

/**
 * A place for pictures, each under the SHA-256 of its bytes in hexadecimal. `put` returns once the bytes are safe, and is no harm
 * twice; `get` gives what lies there, unchecked; `list` goes by the hash, and bears that some are taken away meanwhile.
 * @typedef {object} PictureStore
 * @property {string} name
 * @property {(hash: string, bytes: Uint8Array) => Promise<void>} put
 * @property {(hash: string) => Promise<Uint8Array<ArrayBuffer> | null>} get
 * @property {(hash: string) => Promise<void>} remove
 * @property {() => AsyncGenerator<string, void>} list
 */

/** A store outside of the database that could not be asked. */
export class PicturesAway extends Error {}

const orAway = (store, work) =>
  work().catch((error) => {
    throw store.name === 'database' ? error : new PicturesAway(`${store.name}: ${error.message}`, { cause: error });
  });

/** @param {Uint8Array} bytes */
export const hashOf = (bytes) => createHash('sha256').update(bytes).digest('hex');

/**
 * The store that a setting names.
 * @param {string} where `database`, `folder:/an/absolute/path` or `s3:https://host/bucket/prefix`
 * @param {{ query: import('./rows-store.mjs').Ask, keyId?: string, secret?: string, region?: string }} settings
 * @returns {PictureStore} @throws {Error} where the setting names none
 */
export function storeAt(where, { query, keyId, secret, region }) {
  if (where === 'database') return rowsStore(query);
  if (/^folder:\//.test(where)) return folderStore(where.slice('folder:'.length));
  if (/^s3:https?:\/\/[^/]+\/[^/]/.test(where)) {
    if (!keyId || !secret) throw new Error('RIMEBOOK_PICTURES_KEY and RIMEBOOK_PICTURES_SECRET: who asks the store of pictures?');
    return s3Store(where.slice('s3:'.length), { keyId, secret, region: region || 'us-east-1' });
  }
  throw new Error(`${where}: "database", "folder:/an/absolute/path" or "s3:https://host/bucket"`);
}

/**
 * Where a shop's pictures are, by its environment: new ones go to the first; older ones may lie in the one of before, or in the
 * database, where a restored backup puts them.
 * @param {Record<string, string | undefined>} env @param {import('./rows-store.mjs').Ask} query
 */
export function picturesBy(env, query) {
  const settings = {
    query,
    keyId: env.RIMEBOOK_PICTURES_KEY,
    secret: env.RIMEBOOK_PICTURES_SECRET,
    region: env.RIMEBOOK_PICTURES_REGION,
  };
  const named = [env.RIMEBOOK_PICTURES || 'database', ...(env.RIMEBOOK_PICTURES_BEFORE ? [env.RIMEBOOK_PICTURES_BEFORE] : []), 'database'];
  return pictures([...new Set(named)].map((where) => storeAt(where, settings)));
}

/**
 * Several stores as one.
 * @param {PictureStore[]} stores the first takes what is new
 */
export function pictures(stores) {
  const [first] = stores;
  if (!first) throw new Error('no store of pictures');
  return {
    stores,
    /** @param {Uint8Array} bytes @returns {Promise<string>} its hash, under which it is kept */
    async put(bytes) {
      const hash = hashOf(bytes);
      await orAway(first, () => first.put(hash, bytes));
      return hash;
    },
    /**
     * A picture whole and unchanged, or null where none of the stores has it so.
     * @param {string} hash @returns {Promise<Uint8Array<ArrayBuffer> | null>} @throws {Error} where one could not be asked
     */
    async get(hash) {
      let failed;
      // Twice: between two looks it may have been moved from a later store to an earlier one.
      for (const store of [...stores, ...stores.slice(0, -1)])
        try {
          const bytes = await orAway(store, () => store.get(hash));
          if (bytes && hashOf(bytes) === hash) return bytes;
        } catch (error) {
          failed ??= error;
        }
      if (failed) throw failed;
      return null;
    },
  };
}
/** @typedef {ReturnType<typeof pictures>} Pictures */
