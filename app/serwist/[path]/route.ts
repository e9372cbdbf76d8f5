import { createSerwistRoute } from '@serwist/turbopack';
import { ROUND_FILES, roundApp } from '@/lib/server/round-app';

// The round's service worker, built with the app. It keeps the shell and nothing else: no data, no other page.
const { files } = await roundApp();

export const { dynamic, dynamicParams, revalidate, generateStaticParams, GET } = createSerwistRoute({
  swSrc: 'app/(tablet)/service-worker.ts',
  useNativeEsbuild: true,
  globPatterns: ['public/icons/*.png'],
  additionalPrecacheEntries: [
    // The names carry a hash of the content.
    ...[...files.keys()].filter((f) => !f.endsWith('.woff')).map((f) => ({ url: `${ROUND_FILES}/${f}`, revision: null })),
    ...['/round', '/manifest.webmanifest', '/icon.svg'].map((url) => ({ url, revision: crypto.randomUUID() })),
  ],
});
