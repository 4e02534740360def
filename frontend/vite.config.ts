import { defineConfig } from "vite";

// Everything the page needs is bundled: it must work without a network. `three` becomes a chunk of its own through its dynamic import.
export default defineConfig({
  base: "/",
  build: {
    outDir: "dist",
    assetsDir: "assets",
    target: "es2022",
    sourcemap: false,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: { input: { index: "index.html", log: "log.html" } },
    chunkSizeWarningLimit: 900,
  },
});
