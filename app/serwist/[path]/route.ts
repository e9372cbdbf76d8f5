import { createSerwistRoute } from '@serwist/turbopack';
import { tabletBundle } from '@/lib/server/answers/tablet-bundle';

// The round's service worker, built with the app. It keeps the shell and nothing else: no data, no other page.
const { files } = await tabletBundle();

export const { dynamic, dynamicParams, revalidate, generateStaticParams, GET } = createSerwistRoute({
  swSrc: 'app/(tablet)/service-worker.ts',
  useNativeEsbuild: true,
  globPatterns: ['public/icons/*.png'],
  additionalPrecacheEntries: [
    // The names carry a hash of the content.
    ...files.filter((f) => !f.endsWith('.woff')).map((f) => ({ url: `/round-app/${f}`, revision: null })),
    ...['/round', '/manifest.webmanifest', '/icon.svg'].map((url) => ({ url, revision: crypto.randomUUID() })),
  ],
});
