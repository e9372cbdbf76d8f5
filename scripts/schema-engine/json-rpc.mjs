import { createInterface } from 'node:readline';
import { adapterFactory } from './adapter.mjs';
import { newEngine } from './engine.mjs';

/** The code that the native engine gives to every error it knows. */
const KNOWN_ERROR = 4466;

const write = (message) => new Promise((done) => process.stdout.write(`${JSON.stringify({ jsonrpc: '2.0', ...message })}\n`, done));

async function answer({ method, params }, newOne) {
  const engine = await newOne();
  // An engine knows its shadow database for these two only once it has run devDiagnostic.
  if (method === 'evaluateDataLoss' || method === 'createMigration')
    await engine.devDiagnostic({ migrationsList: params.migrationsList, filters: params.filters });
  const result = await engine[method === 'getDatabaseVersion' ? 'version' : method](params);
  // The native engine prints a diff by asking Prisma to.
  if (method === 'diff' && result?.stdout != null) await write({ id: 'print', method: 'print', params: { content: result.stdout } });
  return result ?? {};
}

async function handle(request, newOne) {
  try {
    await write({ id: request.id, result: await answer(request, newOne) });
  } catch (error) {
    const data = {
      is_panic: false,
      message: error.message ?? String(error),
      error_code: error.code,
      meta: error.meta ?? null,
    };
    await write({
      id: request.id,
      error: { code: KNOWN_ERROR, message: 'An error happened. Check the data field for details.', data },
    });
  }
}

/** Answer requests, one line of JSON each, until standard input closes. */
export function serve({ schemas, url, shadowUrl }) {
  const newOne = () => newEngine(schemas, adapterFactory(url, shadowUrl));
  const busy = new Set();
  const lines = createInterface({ input: process.stdin, crlfDelay: Infinity });
  lines.on('line', (line) => {
    const request = line.trim() && JSON.parse(line);
    // Lines without a method are Prisma's answers to "print".
    if (!request?.method) return;
    const work = handle(request, newOne).finally(() => busy.delete(work));
    busy.add(work);
  });
  lines.on('close', async () => {
    await Promise.all(busy);
    process.exit(0);
  });
}
