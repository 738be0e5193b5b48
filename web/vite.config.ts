/** How the page is built: plain files that a strict content security policy can serve. */
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  // Relative addresses, so that the page also works behind a path of somebody's own.
  base: './',
  build: {
    outDir: 'dist',
    emptyOutDir: true,
    target: 'es2022',
    // Inlined assets would be data: addresses, which the policy refuses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
});
