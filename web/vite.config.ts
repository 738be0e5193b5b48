/** How the page is built: plain files that a strict content security policy can serve. */
import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';

// Whoever builds it, and from where: a page for development has the paths of this computer in it.
process.env['NODE_ENV'] = 'production';

const WORKER = 'service-worker';

/** Lists what the page consists of, for the worker that keeps it. */
const keptFiles: Plugin = {
  name: 'kept-files',
  generateBundle(_options, bundle) {
    const files = Object.keys(bundle).filter(
      (file) => file !== `${WORKER}.js` && file !== 'index.html',
    );
    const source = JSON.stringify(['./', 'manifest.webmanifest', ...files]);
    this.emitFile({ type: 'asset', fileName: 'kept-files.json', source });
  },
};

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  // Relative addresses, so that the page also works behind a path of somebody's own.
  base: './',
  plugins: [keptFiles],
  build: {
    outDir: 'dist',
    emptyOutDir: true,
    target: 'es2022',
    // Inlined assets would be data: addresses, which the policy refuses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // One file, from this very computer: in parts it would come no sooner.
    chunkSizeWarningLimit: 900,
    rolldownOptions: {
      input: {
        page: fileURLToPath(new URL('index.html', import.meta.url)),
        [WORKER]: fileURLToPath(new URL('offline/service-worker.ts', import.meta.url)),
      },
      output: {
        // A worker's name stays, or the browser would never see a newer one.
        entryFileNames: ({ name }) => (name === WORKER ? '[name].js' : 'assets/[name]-[hash].js'),
      },
    },
  },
});
