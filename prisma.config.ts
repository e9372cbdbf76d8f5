import path from 'node:path';
import { defineConfig } from 'prisma/config';

// Prisma's native schema engine is a download; this is the same engine from npm, as WebAssembly.
process.env.PRISMA_SCHEMA_ENGINE_BINARY ??= path.join(import.meta.dirname, 'scripts/schema-engine.mjs');

export default defineConfig({
  schema: 'prisma/schema.prisma',
  migrations: { path: 'prisma/migrations', seed: 'tsx prisma/seed/demo.ts' },
  datasource: { url: process.env.DATABASE_URL ?? '' },
});
