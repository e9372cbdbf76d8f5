import { AwsClient } from 'aws4fetch';

const HASH = /^[0-9a-f]{2}\/([0-9a-f]{64})$/;
const LONGEST_MS = 20_000;
const TRIES_MORE = 2;

/**
 * Pictures in a bucket of a server that speaks S3's protocol (GET, PUT, DELETE, ListObjectsV2; signature version 4; the bucket in
 * the path). It is asked by the shop alone: no address of it is ever given to a browser.
 * @param {string} address of the bucket, with a prefix where there is one: https://host/bucket/prefix
 * @param {{ keyId: string, secret: string, region: string }} account @returns {import('./picture-store.mjs').PictureStore}
 */
export function s3Store(address, { keyId, secret, region }) {
  const { origin, pathname } = new URL(address);
  const [, bucket, ...rest] = pathname.replace(/\/+$/, '').split('/');
  const prefix = rest.length > 0 ? `${rest.join('/')}/` : '';
  const client = new AwsClient({ accessKeyId: keyId, secretAccessKey: secret, region, service: 's3', retries: TRIES_MORE });
  const at = (hash) => `${origin}/${bucket}/${prefix}${hash.slice(0, 2)}/${hash}`;

  async function ask(url, init, fine) {
    const answer = await client.fetch(url, { ...init, signal: AbortSignal.timeout(LONGEST_MS) });
    if (answer.ok || fine.includes(answer.status)) return answer;
    const code = /<Code>([^<]{1,60})<\/Code>/.exec(await answer.text())?.[1] ?? '';
    throw new Error(`The store of pictures answered ${answer.status} ${code}`.trim());
  }

  return {
    name: `s3:${origin}/${bucket}/${prefix}`,
    async put(hash, bytes) {
      // Signed with what it should be: the server refuses what arrives changed.
      const headers = { 'content-type': 'image/jpeg', 'x-amz-content-sha256': hash };
      await (await ask(at(hash), { method: 'PUT', body: bytes, headers }, [])).arrayBuffer();
    },
    async get(hash) {
      const answer = await ask(at(hash), { method: 'GET' }, [404]);
      const bytes = await answer.arrayBuffer();
      return answer.status === 404 ? null : new Uint8Array(bytes);
    },
    async remove(hash) {
      await (await ask(at(hash), { method: 'DELETE' }, [404])).arrayBuffer();
    },
    async *list() {
      for (let after = ''; ;) {
        const query = new URLSearchParams({ 'list-type': '2', prefix, ...(after ? { 'start-after': after } : {}) });
        const xml = await (await ask(`${origin}/${bucket}?${query}`, { method: 'GET' }, [])).text();
        const keys = [...xml.matchAll(/<Key>([^<]*)<\/Key>/g)].map((m) => m[1]);
        for (const key of keys) {
          const hash = HASH.exec(key.slice(prefix.length))?.[1];
          if (hash) yield hash;
        }
        if (keys.length === 0 || !/<IsTruncated>true<\/IsTruncated>/.test(xml)) return;
        after = keys[keys.length - 1];
      }
    },
  };
}
