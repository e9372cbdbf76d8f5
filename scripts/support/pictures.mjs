import { hashOf, picturesBy, storeAt } from '../../lib/database/pictures/picture-store.mjs';
import { connected } from './connected.mjs';
import { Plain } from './say.mjs';

/** A shop's pictures as the environment has them, on a connection of their own that is closed when `work` is done. */
export const withPictures = (url, work) =>
  connected(url, async (client) => {
    // A connection answers one question after the other.
    let last = Promise.resolve();
    const ask = (sql, values) => {
      const mine = last.then(async () => (await client.query(sql, values)).rows);
      last = mine.catch(() => {});
      return mine;
    };
    return work(picturesBy(process.env, ask), ask);
  });

/** Two movers of opposite ways would each take for safe what the other takes away. */
const MOVING = 72707371;
const AT_ONCE = 4;

/**
 * Moves all pictures from one store into another. Each is taken away only after it was read back from where it went, whole; what
 * is cut short goes on where it stopped, for what was moved is not in the first store any more.
 * @typedef {import('../../lib/database/pictures/picture-store.mjs').PictureStore} PictureStore
 * @param {PictureStore} from @param {PictureStore} to
 * @param {(moved: number) => void} [onMoved]
 * @returns {Promise<{ moved: number, damaged: string[] }>} damaged: those that are not what their name says, left where they are
 */
export async function movePictures(from, to, onMoved) {
  if (from.name === to.name) throw new Plain(`The pictures are in ${to.name} already.`);
  let moved = 0;
  const damaged = [];
  const move = async (hash) => {
    const bytes = await from.get(hash);
    if (bytes === null) return;
    if (hashOf(bytes) !== hash) return void damaged.push(hash);
    const there = await to.get(hash);
    if (!there || hashOf(there) !== hash) {
      await to.put(hash, bytes);
      const back = await to.get(hash);
      if (!back || hashOf(back) !== hash)
        throw new Plain(`${to.name} did not keep ${hash} whole. Nothing was taken away from ${from.name}.`);
    }
    await from.remove(hash);
    onMoved?.(++moved);
  };
  let some = [];
  const settle = () => Promise.all(some.splice(0).map(move));
  for await (const hash of from.list()) if (some.push(hash) >= AT_ONCE) await settle();
  await settle();
  return { moved, damaged };
}

/** From a store into the one where new pictures go, while the shop goes on working; one mover at a time. */
export const moveInto = (url, fromWhere, onMoved) =>
  withPictures(url, async ({ stores }, ask) => {
    const [{ ours }] = await ask('SELECT pg_try_advisory_lock($1) AS ours', [MOVING]);
    if (!ours) throw new Plain('Pictures are being moved already.');
    const settings = {
      query: ask,
      keyId: process.env.RIMEBOOK_PICTURES_KEY,
      secret: process.env.RIMEBOOK_PICTURES_SECRET,
      region: process.env.RIMEBOOK_PICTURES_REGION,
    };
    const to = stores[0];
    return { to: to.name, ...(await movePictures(storeAt(fromWhere, settings), to, onMoved)) };
  });

/**
 * Reads every picture that is on file.
 * @returns {Promise<{ whole: number, missing: string[] }>} missing: those that no store has as they should be
 */
export const checkPictures = (url) =>
  withPictures(url, async (pictures, ask) => {
    const missing = [];
    let whole = 0;
    for (let after = ''; ;) {
      const rows = await ask('SELECT DISTINCT content FROM "StoredFile" WHERE content > $1 ORDER BY content LIMIT 1000', [after]);
      for (const { content } of rows) {
        if (await pictures.get(content)) whole++;
        else missing.push(content);
      }
      if (rows.length < 1000) return { whole, missing };
      after = rows[rows.length - 1].content;
    }
  });
