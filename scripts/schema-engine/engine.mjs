import { readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils';
import * as glue from '@prisma/schema-engine-wasm/schema_engine_bg';

// The engine reports a panic through this global.
globalThis.PRISMA_WASM_PANIC_REGISTRY = {
  message: '',
  set_message(message) {
    this.message = `RuntimeError: ${message}`;
  },
  get() {
    return this.message;
  },
};

let loaded = false;

/** The package imports its .wasm file as a module, which Node 20 cannot: read and start it by hand. */
function load() {
  if (loaded) return;
  const folder = path.dirname(fileURLToPath(import.meta.resolve('@prisma/schema-engine-wasm')));
  const compiled = new WebAssembly.Module(readFileSync(path.join(folder, 'schema_engine_bg.wasm')));
  const instance = new WebAssembly.Instance(compiled, { './schema_engine_bg.js': glue });
  glue.__wbg_set_wasm(instance.exports);
  instance.exports.__wbindgen_start();
  loaded = true;
}

/** A fresh engine. @param {[string, string][]} schemas file names and texts @param {object} factory of connections */
export function newEngine(schemas, factory) {
  load();
  const datamodels = schemas.length > 0 ? schemas : undefined;
  const log = (line) => process.env.SCHEMA_ENGINE_LOG && process.stderr.write(`${line}\n`);
  return glue.SchemaEngine.new({ datamodels }, log, bindMigrationAwareSqlAdapterFactory(factory));
}
