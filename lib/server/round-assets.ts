import 'server-only';
import { readFileSync } from 'node:fs';
import path from 'node:path';

type ClientManifest = { entryJSFiles: Record<string, string[]>; entryCSSFiles: Record<string, { path: string }[]> };

/** The build's own list of what the page of the round loads. */
function pageFiles(dist: string): string[] {
  const source = readFileSync(path.join(dist, 'server/app/(round)/round/page_client-reference-manifest.js'), 'utf8');
  // One assignment of a JSON object to a global.
  const manifest = JSON.parse(source.slice(source.indexOf('] = {') + 4).replace(/;\s*$/, '')) as ClientManifest;
  const styles = Object.values(manifest.entryCSSFiles).flat().map((f) => f.path);
  return [...Object.values(manifest.entryJSFiles).flat(), ...styles];
}

function startFiles(dist: string): string[] {
  const manifest = JSON.parse(readFileSync(path.join(dist, 'build-manifest.json'), 'utf8')) as { rootMainFiles: string[]; polyfillFiles: string[] };
  return [...manifest.rootMainFiles, ...manifest.polyfillFiles];
}

const NAMED = /static\/chunks\/[\w.~%()-]+\.(?:js|css)/g;
const FONTS = /media\/[\w.~-]+\.woff2/g;

/**
 * Everything the round may ever load, as paths below the build folder: what its page names, and what those files name
 * in turn (the estimate comes only when a unit is opened). Other pages' code stays out of the tablet.
 */
export function roundAssets(dist: string): Set<string> {
  const found = new Set<string>();
  const queue = [...startFiles(dist), ...pageFiles(dist)];
  for (let file = queue.pop(); file; file = queue.pop()) {
    if (found.has(file)) continue;
    found.add(file);
    if (!/\.(js|css)$/.test(file)) continue;
    const text = readFileSync(path.join(dist, file), 'utf8');
    for (const [name] of text.matchAll(NAMED)) queue.push(name);
    if (file.endsWith('.css')) for (const [name] of text.matchAll(FONTS)) queue.push(`static/${name}`);
  }
  return found;
}
