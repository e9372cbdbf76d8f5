import 'server-only';
import { readFile } from 'node:fs/promises';
import path from 'node:path';

/** The schema as its authors wrote it, whose words explain the archive of everything. */
export const schemaText = () => readFile(path.join(process.cwd(), 'prisma', 'schema.prisma'), 'utf8');
