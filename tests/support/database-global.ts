import type { TestProject } from 'vitest/node';
import { openTestServer } from '../../scripts/support/test-databases.mjs';

declare module 'vitest' {
  interface ProvidedContext {
    /** Address of the migrated template database that each test file copies. */
    databaseTemplate: string;
    /** Beginning of the names of this run's databases. */
    databasePrefix: string;
  }
}

/**
 * Once for all integration tests: a PostgreSQL server (DATABASE_URL, or a private one that is started here),
 * and on it a database with every migration applied.
 */
export default async function setUp({ provide }: TestProject) {
  const server = await openTestServer();
  const template = await server.migrated();
  const prefix = `rimebook_test_${process.pid}_${Date.now().toString(36)}`;
  provide('databaseTemplate', template);
  provide('databasePrefix', prefix);

  return async () => {
    await server.dropBeginning(prefix);
    await server.close();
  };
}
