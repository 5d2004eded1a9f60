import { defineConfig } from "vitest/config";

/**
 * Long property tests share two cores; speed is measured by benchmarks, never by a timed test. Left to itself, a machine with two
 * cores would run one file at a time.
 */
export default defineConfig({ test: { testTimeout: 240_000, hookTimeout: 240_000, maxWorkers: 2 } });
