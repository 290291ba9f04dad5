import { resolve } from 'node:path';

/**
 * An application with nothing in it, of the same Next, for the bench alone: what stands here is in no product.
 * @type {import('next').NextConfig}
 */
const config = {
  reactStrictMode: true,
  poweredByHeader: false,
  devIndicators: false,
  images: { unoptimized: true },
  serverExternalPackages: ['better-sqlite3'],
  typescript: { ignoreBuildErrors: true, tsconfigPath: '../../../tsconfig.json' },
  turbopack: { root: resolve(import.meta.dirname, '../../..') },
};

export default config;
