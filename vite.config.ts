/// <reference types="vitest/config" />
import { defineConfig } from 'vite';
import react from '@vitejs/plugin-react';

export default defineConfig({
  root: 'src',
  publicDir: '../assets',
  cacheDir: '../node_modules/.vite',
  base: './',
  build: { outDir: '../dist', emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 900 },
  worker: { format: 'es' },
  resolve: { dedupe: ['three', 'react', 'react-dom', 'three-mesh-bvh'] },
  optimizeDeps: { include: ['three', 'three-bvh-csg', 'three-mesh-bvh', 'comlink'] },
  plugins: [react()],
  test: {
    root: '.',
    dir: 'tests',
    include: ['**/*.test.ts', '**/*.test.tsx'],
    environment: 'node',
    testTimeout: 60_000,
    hookTimeout: 120_000,
    // One browser and one boolean library at a time: two cores, and honest timings.
    maxWorkers: 2,
    server: { deps: { inline: ['three-bvh-csg', 'three-mesh-bvh'] } },
  },
});
