import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createWriteStream, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { Writable } from 'node:stream';
import sharp from 'sharp';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { connect } from '@/lib/database/client';
import { askOf } from '@/lib/database/pictures/in-database';
import { hashOf, pictures, picturesBy, storeAt, type PictureStore } from '@/lib/database/pictures/picture-store.mjs';
import { writeArchive } from '@/lib/features/archive/verbs/write-archive';
import { readPicture } from '@/lib/features/files/verbs/read-picture';
import { takePiece } from '@/lib/features/files/verbs/upload';
import { explain } from '@/lib/server/doors/guard';
import { backUp, restore } from '@/scripts/support/backup.mjs';
import { databaseName, drop, withDatabase } from '@/scripts/support/databases.mjs';
import { movePictures } from '@/scripts/support/pictures.mjs';
import { useDatabase } from '../../support/database';
import { haveOneUnit } from '../../support/factories';
import { havePicture, picturesIn } from '../../support/pictures';
import { bucketServer, signatureOf } from '../../support/s3-server';

const database = useDatabase();
const NOW = new Date('2026-11-27T12:00:00Z');
const folder = mkdtempSync(path.join(os.tmpdir(), 'rimebook-pictures-'));
let bucket: Awaited<ReturnType<typeof bucketServer>>;
let userId: string;

const bytesOf = (n: number) => new Uint8Array(20_000).fill(n);
const ask = () => askOf(database.db);
const places = () => ({ database: 'database', folder: `folder:${folder}`, bucket: bucket.where });
type Place = keyof ReturnType<typeof places>;
const at = (place: Place): PictureStore => storeAt(places()[place], { query: ask(), keyId: bucket.settings.RIMEBOOK_PICTURES_KEY, secret: bucket.settings.RIMEBOOK_PICTURES_SECRET, region: bucket.settings.RIMEBOOK_PICTURES_REGION }); // prettier-ignore
const shopWith = (place: Place) => picturesBy({ ...bucket.settings, RIMEBOOK_PICTURES: places()[place] }, ask());
async function all(store: PictureStore): Promise<string[]> {
  const found = [];
  for await (const hash of store.list()) found.push(hash);
  return found.toSorted();
}

beforeAll(async () => {
  bucket = await bucketServer();
  userId = (await haveOneUnit(database.db, { person: { role: 'owner' } })).person.id;
  for (let n = 1; n <= 10; n++) await havePicture(database.db, bytesOf(n));
});
afterAll(async () => {
  await bucket.close();
  rmSync(folder, { recursive: true, force: true });
});
beforeEach(async () => {
  Object.assign(bucket.state, { down: false, slowMs: 0, refused: [] });
  for (const place of ['folder', 'bucket'] as const) await movePictures(at(place), at('database'));
});

describe('the judge of signatures', () => {
  it('agrees with the published example of signature version 4: GET of a range of test.txt in examplebucket', () => {
    // Amazon S3 API reference, "Authenticating requests: using the Authorization header", example "GET object".
    const empty = 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855';
    const headers = { host: 'examplebucket.s3.amazonaws.com', range: 'bytes=0-9', 'x-amz-content-sha256': empty, 'x-amz-date': '20130524T000000Z' }; // prettier-ignore
    expect(
      signatureOf('wJalrXUtnFEMI/K7MDENG/bPxRfiCYEXAMPLEKEY', '20130524T000000Z', '20130524/us-east-1/s3', { method: 'GET', path: '/test.txt', query: '', headers, names: Object.keys(headers), payload: empty }), // prettier-ignore
    ).toBe('f0e8bdb87c964420e857bd35b5d6ed310bd44f0170aba48dd91039c6036bdb41');
  });

  it('refuses a wrong secret', async () => {
    const wrong = storeAt(bucket.where, { query: ask(), keyId: bucket.settings.RIMEBOOK_PICTURES_KEY, secret: 'guessed', region: bucket.settings.RIMEBOOK_PICTURES_REGION }); // prettier-ignore
    await expect(wrong.get(hashOf(bytesOf(1)))).rejects.toThrow(/403 SignatureDoesNotMatch/);
    expect(bucket.state.refused).toEqual(['SignatureDoesNotMatch']);
  });
});

describe.each(['database', 'folder', 'bucket'] as const)('pictures in a %s', (place) => {
  it('are kept under their hash, once, listed, and gone when removed', async () => {
    const store = at(place);
    const before = await all(store);
    const some = Array.from({ length: 8 }, (_, n) => bytesOf(100 + n));
    for (const bytes of [...some, ...some]) await store.put(hashOf(bytes), bytes);
    expect(await all(store)).toEqual([...before, ...some.map(hashOf)].toSorted());
    for (const bytes of some) expect(Buffer.from((await store.get(hashOf(bytes))) ?? []).equals(bytes)).toBe(true);
    for (const bytes of some) await store.remove(hashOf(bytes));
    expect([await store.get(hashOf(bytesOf(100))), await all(store)]).toEqual([null, before]);
    await store.remove(hashOf(bytesOf(100)));
    expect(bucket.state.refused).toEqual([]);
  });

  it('are taken in and shown as ever', async () => {
    const shop = shopWith(place);
    const sent = await sharp({ create: { width: 64, height: 48, channels: 3, background: place === 'folder' ? '#123' : place === 'bucket' ? '#456' : '#789' } }).png().toBuffer(); // prettier-ignore
    const ctx = { db: database.db, actor: { userId }, now: NOW, pictures: shop };
    expect(await takePiece(ctx, { sha256: hashOf(sent), pieces: 1, index: 0 }, sent)).toMatchObject({ done: true });
    const row = await database.db.storedFile.findUniqueOrThrow({ where: { sha256: hashOf(sent) } });
    expect(await at(place).get(row.content)).not.toBeNull();
    if (place !== 'database') expect(await at('database').get(row.content)).toBeNull();
    const actor = { userId, role: 'owner', name: '', sessionId: '' } as never;
    const { bytes } = await readPicture({ db: database.db, actor, pictures: shop }, row.id, 'full');
    expect((await sharp(bytes).metadata()).format).toBe('jpeg');
  });

  it('are all in the archive of everything, which is the same to the byte wherever they lie', async () => {
    const reference = await archiveOf(database.url, picturesIn(database.db), 'reference.zip');
    if (place !== 'database') await movePictures(at('database'), at(place));
    expect((await archiveOf(database.url, shopWith(place), `${place}.zip`)).equals(reference)).toBe(true);
  });
});

it('a backup of a shop with its pictures in a bucket is whole by itself: what is made of it is the same to the byte', async () => {
  const reference = await archiveOf(database.url, picturesIn(database.db), 'reference.zip');
  await movePictures(at('database'), at('bucket'));
  const file = path.join(folder, 'shop.rimebook');
  await backUp(database.url, file, { pictures: shopWith('bucket') });
  bucket.state.down = true;
  await expect(backUp(database.url, path.join(folder, 'not.rimebook'), { pictures: shopWith('bucket') })).rejects.toThrow(/503/);
  const target = withDatabase(database.url, `${databaseName(database.url)}_back`);
  try {
    await restore(file, target);
    const restored = connect(target, 2);
    expect((await archiveOf(target, picturesIn(restored), 'again.zip')).equals(reference)).toBe(true);
    await restored.$disconnect();
  } finally {
    await drop(target);
  }
});

async function archiveOf(url: string, kept: ReturnType<typeof pictures>, name: string): Promise<Buffer> {
  const file = path.join(folder, name);
  const schema = readFileSync('prisma/schema.prisma', 'utf8');
  await writeArchive(url, Writable.toWeb(createWriteStream(file)) as WritableStream<Uint8Array>, { now: NOW, schema, pictures: kept, onProgress: () => {} }); // prettier-ignore
  return readFileSync(file);
}

describe('moved between stores', () => {
  const onFile = async () => (await database.db.storedFile.findMany({ distinct: ['content'] })).map((f) => f.content).toSorted();

  it('cut short at any step, nothing is lost, each stays readable, and the next run ends it', async () => {
    const hashes = await onFile();
    for (const [a, b] of [
      ['database', 'folder'],
      ['folder', 'bucket'],
      ['bucket', 'database'],
    ] as const) {
      let cuts = 0;
      for (let step = 1; ; step += 11) {
        let left = step;
        const cut = (store: PictureStore): PictureStore => {
          const counted = <A extends unknown[], R>(work: (...args: A) => Promise<R>) => async (...args: A) => {
            if (left-- <= 0) throw new Error('cut');
            return work(...args);
          }; // prettier-ignore
          return { ...store, put: counted(store.put), get: counted(store.get), remove: counted(store.remove) };
        };
        const done = await movePictures(cut(at(a)), cut(at(b))).then(() => true, (e: Error) => e.message !== 'cut'); // prettier-ignore
        // What ran side by side comes to its end first.
        await new Promise((ok) => setTimeout(ok, 20));
        const shop = pictures([at(b), at(a)]);
        for (const hash of hashes) expect(await shop.get(hash)).not.toBeNull();
        if (done) break;
        cuts++;
      }
      expect(cuts).toBeGreaterThan(2);
      expect([(await all(at(a))).length, await all(at(b))]).toEqual([0, hashes]);
    }
  }, 120_000);

  it('killed as a process again and again, it ends at last with all of them', async () => {
    const hashes = await onFile();
    Object.assign(bucket.state, { slowMs: 30 });
    const env = { ...process.env, ...bucket.settings, DATABASE_URL: database.url, RIMEBOOK_PICTURES: bucket.where };
    let kills = 0;
    for (let n = 0; n < 30; n++) {
      const mover = spawn(process.execPath, ['scripts/pictures.mjs', 'move', '--from', 'database'], { env, stdio: 'ignore' });
      const timer = setTimeout(() => mover.kill('SIGKILL'), 500 + 150 * n);
      const [code, signal] = (await once(mover, 'exit')) as [number | null, string | null];
      clearTimeout(timer);
      for (const hash of hashes) expect(await shopWith('bucket').get(hash)).not.toBeNull();
      if (code === 0) break;
      expect(signal).toBe('SIGKILL');
      kills++;
    }
    expect([kills > 0, await all(at('database')), await all(at('bucket'))]).toEqual([true, [], hashes]);
  }, 120_000);

  it('a damaged one is left where it is and told; one that arrives changed is not taken away', async () => {
    await movePictures(at('database'), at('folder'));
    const [hash = ''] = await all(at('folder'));
    const file = path.join(folder, hash.slice(0, 2), hash);
    const whole = readFileSync(file);
    writeFileSync(file, Buffer.concat([whole, Buffer.from('x')]));
    expect(await shopWith('folder').get(hash)).toBeNull();
    expect((await movePictures(at('folder'), at('bucket'))).damaged).toEqual([hash]);
    expect(await all(at('folder'))).toEqual([hash]);
    writeFileSync(file, whole);
    const bad = { ...at('database'), get: async () => null };
    await expect(movePictures(at('bucket'), bad)).rejects.toThrow(/Nothing was taken away/);
    await new Promise((ok) => setTimeout(ok, 50));
    expect((await all(at('bucket'))).length).toBe((await onFile()).length - 1);
  });
});

describe('a store that is away', () => {
  it('is told in plain words, nothing goes on file without its picture, and the database’s own stay readable', async () => {
    const shop = shopWith('bucket');
    const [inDatabase = ''] = await all(at('database'));
    bucket.state.down = true;
    const sent = await sharp({ create: { width: 31, height: 17, channels: 3, background: '#abc' } }).png().toBuffer(); // prettier-ignore
    const ctx = { db: database.db, actor: { userId }, now: NOW, pictures: shop };
    const error: unknown = await takePiece(ctx, { sha256: hashOf(sent), pieces: 1, index: 0 }, sent).catch((e: unknown) => e);
    expect(explain(error)).toMatchObject({ code: 'busy', message: expect.stringMatching(/pictures are kept/) });
    expect(await database.db.storedFile.count({ where: { sha256: hashOf(sent) } })).toBe(0);
    expect(await shop.get(inDatabase)).not.toBeNull();
    await expect(shop.get('f'.repeat(64))).rejects.toThrow(/503/);
    bucket.state.down = false;
    expect(await takePiece(ctx, { sha256: hashOf(sent), pieces: 1, index: 0 }, sent)).toMatchObject({ done: true });
  });

  it('a folder that is not there is no empty one, and files of it are the server’s alone', async () => {
    const gone = picturesBy({ RIMEBOOK_PICTURES: 'folder:/nowhere/at/all' }, ask());
    await expect(gone.put(bytesOf(9))).rejects.toThrow(/ENOENT/);
    await expect(gone.get('e'.repeat(64))).rejects.toThrow(/no folder/);
    await shopWith('folder').put(bytesOf(9));
    const hash = hashOf(bytesOf(9));
    expect(statSync(path.join(folder, hash.slice(0, 2), hash)).mode & 0o777).toBe(0o600);
    expect(readdirSync(path.join(folder, hash.slice(0, 2)))).toEqual([hash]);
    for (const wrong of ['folder:relative', 's3:https://host', 'ftp://x', 's3:https://host/bucket'])
      expect(() => picturesBy({ RIMEBOOK_PICTURES: wrong }, ask())).toThrow(/folder:|RIMEBOOK_PICTURES_KEY/);
  });
});

describe('the database itself', () => {
  it('keeps nothing under another hash than its own', async () => {
    await expect(database.db.keptPicture.create({ data: { hash: 'a'.repeat(64), bytes: bytesOf(1) } })).rejects.toThrow(/what_it_says/);
    await expect(database.db.storedFile.updateMany({ data: { content: 'x' } })).rejects.toThrow(/content_is_a_hash/);
  });
});
