import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vite";

// Three files with fixed names, because the program embeds them: nothing inline, so that the content policy can be
// strict. In development, requests to /api go to a running server: STRIKEWRIGHT_AT=http://127.0.0.1:PORT npm run dev.
// It takes no request that another address's page sends, so the proxy does not say whose page it was.
export default defineConfig({
  plugins: [svelte()],
  build: {
    assetsInlineLimit: 0,
    modulePreload: false,
    target: "es2022",
    rollupOptions: {
      output: {
        entryFileNames: "app.js",
        assetFileNames: "app[extname]",
        inlineDynamicImports: true,
      },
    },
  },
  server: {
    proxy: {
      "/api": {
        target: process.env.STRIKEWRIGHT_AT ?? "http://127.0.0.1:7417",
        changeOrigin: true,
        configure: (proxy) => proxy.on("proxyReq", (request) => request.removeHeader("origin")),
      },
    },
  },
  test: { include: ["src/**/*.test.ts", "test/browser/**/*.test.ts"], environment: "node", testTimeout: 60_000, hookTimeout: 60_000 },
} as Parameters<typeof defineConfig>[0]);
