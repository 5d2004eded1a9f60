import { configDefaults, defineConfig } from "vitest/config";

/**
 * Rooms whose tests ask the language alone, which keeps nothing but memories of pure answers: their files share the loaded modules of
 * their worker. Loading those anew for each file took more than half the time of the checks' tests.
 */
const together = [
  "bench",
  "checks",
  "model",
  "oracle",
  "planning",
  "proof",
  "quantities",
  "rewritten",
  "samples",
  "spec",
  "syntax",
  "verdicts",
  "worked",
  "working",
].map((room) => `tests/${room}/**/*.test.ts`);

/**
 * Long property tests share two cores; speed is measured by benchmarks, never by a timed test. Left to itself, a machine with two
 * cores would run one file at a time.
 */
export default defineConfig({
  test: {
    testTimeout: 240_000,
    hookTimeout: 240_000,
    maxWorkers: 2,
    projects: [
      { extends: true, test: { name: "language", include: together, isolate: false } },
      {
        extends: true,
        test: { name: "rest", include: ["tests/**/*.test.ts"], exclude: [...configDefaults.exclude, ...together] },
      },
    ],
  },
});
