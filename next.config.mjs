/** @type {import('next').NextConfig} */
const config = {
  // Two builds of one tree can stand side by side: one at work in the hall, one under test.
  distDir: process.env.PELTRY_DIST ?? '.next',
  reactStrictMode: true,
  poweredByHeader: false,
  // A title that arrives behind the page leaves it nameless to a screen reader for a moment: none is streamed.
  htmlLimitedBots: /.*/,
  devIndicators: false,
  // The image optimizer fetches on behalf of whoever asks; no page needs it.
  images: { unoptimized: true },
  // These find files of their own (a native binary, fonts, wasm) beside themselves, so they stay unbundled.
  serverExternalPackages: ['better-sqlite3', '@react-pdf/renderer', '@cantoo/pdf-lib', 'dejavu-fonts-ttf', 'piscina'],
  // The check judges the types of the whole tree once; a second pass over a part of it would find nothing more.
  typescript: { ignoreBuildErrors: true },
  turbopack: { root: import.meta.dirname },
  // Each page is loaded when somebody first opens it: to load them all takes most of the time that a start takes.
  // And a page that cannot be read anew, because the server is away just then, waits for it: without this the framework
  // has the browser load the whole page instead, and with it everything typed is gone.
  experimental: { preloadEntriesOnStart: false, useOffline: true },
};

export default config;
