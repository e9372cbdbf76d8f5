import 'server-only';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';

// The tablet's client as `esbuild.config.mjs` made it. Read while the app is built, and at each look in development.

/** Where `next.config.ts` had it put. */
const inBundle = (...parts: string[]) => path.join(/* turbopackIgnore: true */ process.env.TABLET_BUNDLE ?? '', ...parts);

const Bundle = z.object({ shell: z.string(), inlineScript: z.string(), files: z.array(z.string()) });

export const tabletBundle = async () => Bundle.parse(JSON.parse(await readFile(inBundle('bundle.json'), 'utf8')));

/** @returns nothing for a name that is not of this bundle */
export async function tabletFile(name: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
  if (!(await tabletBundle()).files.includes(name)) return undefined;
  return new Uint8Array(await readFile(inBundle('files', name)));
}
