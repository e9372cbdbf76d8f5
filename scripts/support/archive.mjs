import { createCipheriv, createDecipheriv, randomBytes, scryptSync } from 'node:crypto';
import { createReadStream, createWriteStream } from 'node:fs';
import { open, rename, rm, stat } from 'node:fs/promises';
import { PassThrough } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { createGunzip, createGzip } from 'node:zlib';
import { Plain } from './say.mjs';

// A backup as a file: RIMEBOOK1, then p (plain) or e (encrypted, with 16 bytes of salt and 12 of nonce), then the frames
// below through gzip and, where there is a key, AES-256-GCM, whose 16-byte tag ends the file.
// A frame: one letter, the length as 32 bits, that many bytes.
const MAGIC = Buffer.from('RIMEBOOK1');
const TAG = 16;

/** scrypt at 64 MiB: a key somebody thought of must not be guessed at speed. */
const keyOf = (secret, salt) => scryptSync(secret, salt, 32, { N: 65_536, r: 8, p: 1, maxmem: 128 * 1024 * 1024 });

/**
 * Writes a file that appears under its name only when it is whole and on the disk.
 * @param {string} file @param {string | undefined} secret
 * @param {(frame: (kind: string, bytes: Buffer | string) => Promise<void>) => Promise<void>} write
 */
export async function writeArchive(file, secret, write) {
  const part = `${file}.part`;
  try {
    const out = createWriteStream(part, { mode: 0o600 });
    const salt = randomBytes(16);
    const nonce = randomBytes(12);
    out.write(secret ? Buffer.concat([MAGIC, Buffer.from('e'), salt, nonce]) : Buffer.concat([MAGIC, Buffer.from('p')]));
    const cipher = secret ? createCipheriv('aes-256-gcm', keyOf(secret, salt), nonce) : undefined;
    const frames = new PassThrough();
    const flow = pipeline([frames, createGzip({ level: 5 }), ...(cipher ? [cipher] : []), out], { end: false }).catch((error) => {
      frames.destroy(error);
      throw error;
    });
    flow.catch(() => {});
    await write(async (kind, bytes) => {
      const body = Buffer.from(bytes);
      const head = Buffer.alloc(5);
      head.write(kind, 0, 'latin1');
      head.writeUInt32BE(body.length, 1);
      frames.write(head);
      if (!frames.write(body)) await Promise.race([new Promise((ok) => frames.once('drain', ok)), flow]);
    });
    frames.end();
    await flow;
    await new Promise((ok, no) => out.end(cipher ? cipher.getAuthTag() : undefined, (error) => (error ? no(error) : ok())));
    const handle = await open(part, 'r+');
    await handle.sync();
    await handle.close();
    await rename(part, file);
  } catch (error) {
    await rm(part, { force: true });
    if (error.code === 'ENOSPC') throw new Plain(`No room left on the disk for ${file}. Nothing was lost; free some room and start again.`);
    throw error;
  }
}

async function header(file) {
  const handle = await open(file, 'r').catch(() => {
    throw new Plain(`There is no file ${file}.`);
  });
  try {
    const bytes = Buffer.alloc(MAGIC.length + 29);
    const { bytesRead } = await handle.read(bytes, 0, bytes.length, 0);
    if (bytesRead <= MAGIC.length || !bytes.subarray(0, MAGIC.length).equals(MAGIC)) throw new Plain(`${file} is no backup of Rimebook.`);
    return { encrypted: bytes[MAGIC.length] === 0x65, salt: bytes.subarray(10, 26), nonce: bytes.subarray(26, 38) };
  } finally {
    await handle.close();
  }
}

/** The stages that read an encrypted file. */
async function deciphered(file, { salt, nonce }, secret) {
  const { size } = await stat(file);
  const tag = Buffer.alloc(TAG);
  const handle = await open(file, 'r');
  await handle.read(tag, 0, TAG, size - TAG);
  await handle.close();
  const decipher = createDecipheriv('aes-256-gcm', keyOf(secret, salt), nonce).setAuthTag(tag);
  return [createReadStream(file, { start: 38, end: size - TAG - 1 }), decipher];
}

/**
 * The frames of a file, one by one. That it was not cut or changed is known only when the last has been read.
 * @param {string} file @param {string | undefined} secret
 * @returns {AsyncGenerator<{ kind: string, bytes: Buffer }>}
 * @throws {Plain} at the end, when the file is not what was written
 */
export async function* readArchive(file, secret) {
  const head = await header(file);
  if (head.encrypted && !secret) throw new Plain(`${file} is encrypted. Set RIMEBOOK_BACKUP_KEY to the key it was made with.`);
  const stages = head.encrypted ? await deciphered(file, head, secret) : [createReadStream(file, { start: 10 })];
  const doubt = head.encrypted ? ', or RIMEBOOK_BACKUP_KEY is not the key it was made with' : '';
  const spoiled = () => new Plain(`${file} is damaged${doubt}. Nothing was restored.`);
  const plain = createGunzip();
  const flow = pipeline([...stages, plain]).catch((error) => plain.destroy(error));
  let rest = Buffer.alloc(0);
  try {
    for await (const chunk of plain) {
      rest = rest.length > 0 ? Buffer.concat([rest, chunk]) : chunk;
      for (;;) {
        if (rest.length < 5) break;
        const length = rest.readUInt32BE(1);
        if (rest.length < 5 + length) break;
        yield { kind: rest.toString('latin1', 0, 1), bytes: rest.subarray(5, 5 + length) };
        rest = rest.subarray(5 + length);
      }
    }
    await flow;
  } catch (error) {
    if (error instanceof Plain || !String(error.code ?? error.message).match(/^Z_|^ERR_|Unsupported state|unexpected end/)) throw error;
    throw spoiled();
  }
  if (rest.length > 0) throw spoiled();
}
