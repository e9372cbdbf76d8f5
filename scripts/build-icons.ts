// Draws the app's icons from its mark: `npx tsx scripts/build-icons.ts`. Run it again when app/_ui/page/mark.tsx changes.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import sharp from 'sharp';

const root = path.join(import.meta.dirname, '..');
const COLD = '#0a6078';
const PAPER = '#faf8f3';

/** The strokes of the mark as it stands in the interface. */
function strokes(): string {
  const source = readFileSync(path.join(root, 'app/_ui/page/mark.tsx'), 'utf8');
  const paths = [...source.matchAll(/<path d="([^"]+)"/g)].map((m) => `<path d="${m[1]}"/>`);
  if (paths.length === 0) throw new Error('No strokes found in app/_ui/page/mark.tsx');
  return paths.join('');
}

/** `inset` is the share left free around the mark: a maskable icon may be cut to a circle of 80 %. */
function svg(inset: number, round: boolean): string {
  const scale = (1 - 2 * inset) * (512 / 32);
  const at = 512 * inset;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512"><rect width="512" height="512" rx="${round ? 96 : 0}" fill="${COLD}"/>
<g transform="translate(${at} ${at}) scale(${scale})" fill="none" stroke="${PAPER}" stroke-width="2.4" stroke-linecap="round">${strokes()}</g></svg>`;
}

const out = path.join(root, 'public/icons');
mkdirSync(out, { recursive: true });
writeFileSync(path.join(root, 'app/icon.svg'), svg(0.14, true));
const png = (name: string, size: number, source: string) =>
  sharp(Buffer.from(source)).resize(size, size).png({ palette: true }).toFile(path.join(out, name));
await png('icon-192.png', 192, svg(0.14, true));
await png('icon-512.png', 512, svg(0.14, true));
await png('maskable-512.png', 512, svg(0.24, false));
await png('apple-touch-180.png', 180, svg(0.16, false));
