import path from 'node:path';
import { createSerwistRoute } from '@serwist/turbopack';
import { roundAssets } from '@/lib/server/round-assets';

// The round's service worker, built with the app. It keeps the shell and nothing else: no data, no other page.
const dist = path.join(process.cwd(), process.env.NEXT_DIST_DIR ?? '.next');
const below = (url: string) => url.slice(url.indexOf('static/'));
let wanted: Set<string> | undefined;

export const { dynamic, dynamicParams, revalidate, generateStaticParams, GET } = createSerwistRoute({
  swSrc: 'app/(round)/service-worker.ts',
  useNativeEsbuild: true,
  additionalPrecacheEntries: [
    { url: '/round', revision: crypto.randomUUID() },
    { url: '/manifest.webmanifest', revision: crypto.randomUUID() },
  ],
  globPatterns: [`${process.env.NEXT_DIST_DIR ?? '.next'}/static/**/*.{js,css,woff2}`, 'public/icons/*.png'],
  manifestTransforms: [
    (entries) => {
      wanted ??= roundAssets(dist);
      return { manifest: entries.filter((e) => !e.url.includes('/static/') || wanted?.has(below(e.url))), warnings: [] };
    },
  ],
});
