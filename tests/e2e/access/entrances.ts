import { readFileSync } from 'node:fs';
import path from 'node:path';

const DIST = '.next-test';

export type Action = { name: string; id: string; page: string };
export type Entrances = { pages: string[]; routes: string[]; actions: Action[]; others: string[] };

type ServerReferences = Record<
  'node' | 'edge',
  Record<string, { workers: Record<string, unknown>; filename: string; exportedName: string }>
>;

/** Folders in brackets are no part of an address. */
const address = (compiled: string) => compiled.replace(/\/\([^/]+\)/g, '').replace(/\/(page|route)$/, '') || '/';

/**
 * Every way in, as the framework compiled it and not as files are named: what is in its manifests is what it answers to.
 * `others` are ways in that this shop does not use at all: the old pages room, and anything that runs at the edge.
 */
export function entrances(dist = DIST): Entrances {
  const read = (file: string): unknown => JSON.parse(readFileSync(path.join(dist, file), 'utf8'));
  const compiled = Object.keys(read('server/app-paths-manifest.json') as object);
  const references = read('server/server-reference-manifest.json') as ServerReferences;
  const old = Object.keys(read('server/pages-manifest.json') as object);
  const own = compiled.filter((entry) => !entry.startsWith('/_'));
  return {
    pages: own.filter((entry) => entry.endsWith('/page')).map(address),
    routes: own.filter((entry) => !entry.endsWith('/page')).map(address),
    actions: Object.entries(references.node).map(([id, { filename, exportedName, workers }]) => ({
      name: `${filename.replace(/^app\/(\([^/]+\)\/)?/, '').replace(/\.[jt]sx?$/, '')} ${exportedName}`,
      id,
      page: address(`/${(Object.keys(workers)[0] ?? '').replace(/^app\//, '')}`),
    })),
    others: [...old.filter((p) => !/^\/(404|500|_app|_document|_error)$/.test(p)), ...Object.keys(references.edge)],
  };
}
