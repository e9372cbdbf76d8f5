import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { inProject, prismaBin } from '../../../scripts/support/paths.mjs';
import { node } from '../../../scripts/support/run.mjs';
import { useDatabase } from '../../support/database';

// Prisma's native engine is a download; `scripts/schema-engine.mjs` stands in for it and for nothing else. If one of these
// fails after an update of Prisma, the stand-in is what to look at: what the engine is asked and how it answers is Prisma's own affair.

const version = (name: string): string | undefined =>
  /"version": "([^"]+)"/.exec(readFileSync(inProject('node_modules', name, 'package.json'), 'utf8'))?.[1];

it('is the very build that this Prisma was made for', () => {
  expect(version('@prisma/schema-engine-wasm')).toBe(version('@prisma/engines-version'));
});

describe('asked by Prisma’s own commands', () => {
  const database = useDatabase();
  const diff = async (schema: string): Promise<string> => {
    const args = [prismaBin, 'migrate', 'diff', '--from-config-datasource', '--to-schema', schema];
    const { output } = await node(args, { env: { ...process.env, DATABASE_URL: database.url } });
    return output;
  };
  const SHAPE = /\[[+-]\] (Added|Removed) (column|table|enum|variant)/;

  it('finds the tables and columns of the migrations to be those of the schema, and sees one that is not', async () => {
    const schema = inProject('prisma/schema.prisma');
    expect(await diff(schema)).not.toMatch(SHAPE);
    const changed = path.join(mkdtempSync(path.join(tmpdir(), 'rimebook-schema-')), 'schema.prisma');
    writeFileSync(changed, readFileSync(schema, 'utf8').replace(/^model Customer \{$/m, 'model Customer {\n  planted String?'));
    expect(await diff(changed)).toMatch(SHAPE);
  });
});
