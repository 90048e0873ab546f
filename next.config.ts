import type { NextConfig } from 'next'

const nextConfig: NextConfig = {
  reactStrictMode: true,
  // Two servers may run from one folder, each with a build of its own.
  distDir: process.env.FELLOWBENCH_DIST ?? '.next',
  poweredByHeader: false,
  // `npm test` checks the types of everything; starting the shop need not.
  typescript: { ignoreBuildErrors: true },
  allowedDevOrigins: ['127.0.0.1', 'localhost'],
  // Node-only packages that load .wasm, .node or .sql files next to themselves.
  serverExternalPackages: ['pg', 'pdfkit', 'graphile-worker', 'highs', 'manifold-3d', '@node-rs/argon2'],
}
export default nextConfig
