#!/usr/bin/env node
// Stands in for Prisma's native schema engine, which is a download: the same command line and the same JSON-RPC
// on standard input and output, served by the engine's WebAssembly build from npm. prisma.config.ts points here.
import { readFileSync } from 'node:fs';
import { checkServer, createDatabase } from './schema-engine/command-line.mjs';
import { serve } from './schema-engine/json-rpc.mjs';

const args = process.argv.slice(2);
const after = (name) => (args.includes(name) ? args[args.indexOf(name) + 1] : undefined);

process.on('uncaughtException', (error) => {
  const message = globalThis.PRISMA_WASM_PANIC_REGISTRY?.get() || error.stack;
  console.error(JSON.stringify({ level: 'ERROR', fields: { is_panic: true, message }, target: 'schema_engine::logger' }));
  process.exit(101);
});

const datasource = JSON.parse(after('--datasource') ?? '{}');
const url = datasource.url ?? process.env.DATABASE_URL ?? '';
const command = after('cli');

if (args.includes('--version') || args.includes('-V')) console.log('schema-engine-cli wasm');
else if (command === 'create-database') await createDatabase(url);
else if (command) await checkServer(url);
else {
  const schemas = args.flatMap((arg, i) => (arg === '--datamodels' ? [[args[i + 1], readFileSync(args[i + 1], 'utf8')]] : []));
  serve({ schemas, url, shadowUrl: datasource.shadowDatabaseUrl });
}
