import { defineConfig } from "vitest/config";

/** Long property tests share two cores; speed is measured by benchmarks, never by a timed test. */
export default defineConfig({ test: { testTimeout: 240_000, hookTimeout: 240_000 } });
