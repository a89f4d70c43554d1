import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const gateway = process.env.SCORELINE_GATEWAY ?? 'http://127.0.0.1:8080';

/** Nothing is inlined: the gateway's content policy allows scripts and styles from its own address only. */
export default defineConfig({
  root: import.meta.dirname,
  plugins: [react()],
  build: {
    outDir: 'dist',
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 1200,
  },
  server: {
    host: '127.0.0.1',
    proxy: { '/api': gateway, '/healthz': gateway, '/socket.io': { target: gateway, ws: true } },
  },
});
