import { createHash, createHmac, timingSafeEqual } from 'node:crypto';
import { createServer, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';

// What a server of S3's protocol asks of its callers, written from the published description of signature version 4 and of the four
// requests used here, and from nothing that the client is made of.

const hex = (data: string | Uint8Array) => createHash('sha256').update(data).digest('hex');
const keyed = (key: string | Uint8Array, text: string) => createHmac('sha256', key).update(text).digest();

export type Signed = { method: string; path: string; query: string; headers: Record<string, string>; names: string[]; payload: string };

/** The signature that a request should have. `scope`: day/region/service. */
export function signatureOf(secret: string, at: string, scope: string, { method, path, query, headers, names, payload }: Signed): string {
  const encode = (text: string) => encodeURIComponent(text).replace(/[!'()*]/g, (c) => `%${c.charCodeAt(0).toString(16).toUpperCase()}`);
  const pairs = [...new URLSearchParams(query)].map(([k, v]) => `${encode(k)}=${encode(v)}`).sort();
  const lines = names.map((name) => `${name}:${(headers[name] ?? '').trim().replace(/ +/g, ' ')}\n`).join('');
  const request = [method, path.split('/').map((p) => encode(decodeURIComponent(p))).join('/'), pairs.join('&'), lines, names.join(';'), payload].join('\n'); // prettier-ignore
  const [day = '', region = '', service = ''] = scope.split('/');
  const key = ['aws4_request'].reduce((k: Uint8Array, part) => keyed(k, part), keyed(keyed(keyed(`AWS4${secret}`, day), region), service));
  return keyed(key, ['AWS4-HMAC-SHA256', at, `${scope}/aws4_request`, hex(request)].join('\n')).toString('hex');
}

const ACCOUNT = { keyId: 'KEYOFTHESHOP', secret: 'never+sent/over=the wire', region: 'eu-north-7' };

function refusal(request: IncomingMessage, body: Uint8Array): string | null {
  const found =
    /^AWS4-HMAC-SHA256 Credential=([^/]+)\/(\d{8}\/[^/]+\/s3)\/aws4_request, ?SignedHeaders=([^,]+), ?Signature=([0-9a-f]{64})$/.exec(
      request.headers.authorization ?? '',
    );
  if (!found) return 'AccessDenied';
  const [, keyId, scope = '', names = '', signature = ''] = found;
  if (keyId !== ACCOUNT.keyId || scope.split('/')[1] !== ACCOUNT.region) return 'InvalidAccessKeyId';
  const headers = Object.fromEntries(Object.entries(request.headers).map(([k, v]) => [k, String(v)]));
  const at = headers['x-amz-date'] ?? '';
  const payload = headers['x-amz-content-sha256'] ?? '';
  if (!['host', 'x-amz-date', 'x-amz-content-sha256'].every((n) => names.split(';').includes(n))) return 'AccessDenied';
  if (payload !== 'UNSIGNED-PAYLOAD' && payload !== hex(body)) return 'XAmzContentSHA256Mismatch';
  const stamp = Date.parse(at.replace(/^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z$/, '$1-$2-$3T$4:$5:$6Z'));
  if (!(Math.abs(Date.now() - stamp) < 15 * 60_000) || at.slice(0, 8) !== scope.slice(0, 8)) return 'RequestTimeTooSkewed';
  const { pathname, search } = new URL(request.url ?? '/', 'http://here');
  const expected = signatureOf(ACCOUNT.secret, at, scope, { method: request.method ?? '', path: pathname, query: search, headers, names: names.split(';'), payload }); // prettier-ignore
  return timingSafeEqual(Buffer.from(expected), Buffer.from(signature)) ? null : 'SignatureDoesNotMatch';
}

/** A bucket on this machine, which refuses what is not signed as it should be. It lists `page` keys at most at a time. */
export async function bucketServer(page = 3) {
  const objects = new Map<string, Buffer>();
  const state = { refused: [] as string[], down: false, slowMs: 0 };
  const server = createServer((request, response) => {
    const chunks: Buffer[] = [];
    request.on('data', (c: Buffer) => chunks.push(c));
    request.on('end', () => setTimeout(answer, state.slowMs));
    const end = (status: number, body: string | Buffer = '') => {
      response.writeHead(status);
      response.end(body);
    };
    function answer() {
      const body = Buffer.concat(chunks);
      if (state.down) return end(503, '<Error><Code>ServiceUnavailable</Code></Error>');
      const why = refusal(request, body);
      if (why) {
        state.refused.push(why);
        return end(403, `<Error><Code>${why}</Code></Error>`);
      }
      const url = new URL(request.url ?? '/', 'http://here');
      const key = decodeURIComponent(url.pathname).replace(/^\/shop-pictures\/?/, '');
      if (request.method === 'GET' && key === '') return end(200, listed(url.searchParams));
      if (request.method === 'PUT') return void (objects.set(key, body), end(200));
      if (request.method === 'DELETE') return void (objects.delete(key), end(204));
      const found = objects.get(key);
      return found ? end(200, found) : end(404, '<Error><Code>NoSuchKey</Code></Error>');
    }
  });
  function listed(query: URLSearchParams): string {
    const after = query.get('start-after') ?? '';
    const all = [...objects.keys()].filter((k) => k.startsWith(query.get('prefix') ?? '') && k > after).sort();
    const keys = all.slice(0, page).map((k) => `<Contents><Key>${k}</Key><Size>1</Size></Contents>`);
    return `<?xml version="1.0"?><ListBucketResult><IsTruncated>${all.length > page}</IsTruncated>${keys.join('')}</ListBucketResult>`;
  }
  await new Promise<void>((ok) => server.listen(0, '127.0.0.1', ok));
  const { port } = server.address() as AddressInfo;
  return {
    where: `s3:http://127.0.0.1:${port}/shop-pictures/larkspur`,
    settings: { RIMEBOOK_PICTURES_KEY: ACCOUNT.keyId, RIMEBOOK_PICTURES_SECRET: ACCOUNT.secret, RIMEBOOK_PICTURES_REGION: ACCOUNT.region },
    objects,
    state,
    close: () => new Promise<void>((ok) => void (server.closeAllConnections(), server.close(() => ok()))),
  };
}
