import type { NextConfig } from 'next';

const config: NextConfig = {
  distDir: process.env.NEXT_DIST_DIR ?? '.next',
  experimental: { authInterrupts: true },
  serverExternalPackages: ['@node-rs/argon2', 'sharp', 'pg', 'pg-boss', 'highs', '@react-pdf/renderer', 'pino'],
};

export default config;
