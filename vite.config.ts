/// <reference types="vitest/config" />
import { defineConfig } from 'vite';
import react from '@vitejs/plugin-react';
import { join } from 'node:path';
import { licenceFile } from './src/licences.ts';
import { offlineBuild } from './src/offlineBuild.ts';

const soaking = Boolean(process.env.KERFWEAVE_SOAK);

export default defineConfig({
  root: 'src',
  publicDir: '../assets',
  cacheDir: '../node_modules/.vite',
  base: './',
  build: { outDir: '../dist', emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 900 },
  worker: { format: 'es' },
  resolve: { dedupe: ['three', 'react', 'react-dom', 'three-mesh-bvh'] },
  optimizeDeps: { include: ['three', 'three-bvh-csg', 'three-mesh-bvh', 'comlink'] },
  plugins: [
    react(),
    licenceFile(join(import.meta.dirname, 'src')),
    offlineBuild(join(import.meta.dirname, 'src')),
  ],
  // What a meta element cannot say: no other page may frame the app, or keep hold of its window.
  preview: {
    headers: {
      'Content-Security-Policy': "frame-ancestors 'none'",
      'Cross-Origin-Opener-Policy': 'same-origin',
      'X-Content-Type-Options': 'nosniff',
    },
  },
  test: {
    root: '.',
    environment: 'node',
    server: { deps: { inline: ['three-bvh-csg', 'three-mesh-bvh', 'maxrects-packer'] } },
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/browser/**'],
          // A long check at its full count takes what it takes.
          testTimeout: soaking ? 0 : 60_000,
          hookTimeout: 60_000,
          // Two cores, and honest timings.
          maxWorkers: 2,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/browser/harness/setup.ts'],
          testTimeout: soaking ? 0 : 120_000,
          hookTimeout: 120_000,
          // What is waited for comes at once or never; only a busy machine takes longer.
          expect: { poll: { timeout: 15_000 } },
          // One browser at a time, after everything else: it draws on the processor.
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
