/** Answers kept with their thing: once each, never those of a copy, and let go of with the thing. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { transformSync } from "esbuild";
import { describe, expect, test } from "vitest";
import { keptWith } from "../../language/model/kept-with.ts";

describe("an answer kept with its thing", () => {
  test("is worked out once for each thing, also where it is nothing", () => {
    const asked: object[] = [];
    const size = keptWith((thing: { of?: number }) => {
      asked.push(thing);
      return thing.of;
    });
    const [one, none] = [{ of: 1 }, {}];
    expect([size(one), size(none), size(one), size(none)]).toEqual([1, undefined, 1, undefined]);
    expect(asked).toEqual([one, none]);
  });

  test("stands beside the answers of other questions, also of those that it asks itself", () => {
    const half = keptWith(({ of }: { of: number }) => of / 2);
    const quarter = keptWith((thing: { of: number }) => half(thing) / 2);
    const thing = { of: 8 };
    expect([quarter(thing), half(thing), quarter(thing)]).toEqual([2, 4, 2]);
  });

  test("is not that of a copy, nor the other way round", () => {
    const size = keptWith(({ of }: { of: number }) => of);
    const thing = { of: 1 };
    expect(size(thing)).toBe(1);
    const copy = { ...thing, of: 2 };
    expect([size(copy), size(thing), size(copy)]).toEqual([2, 1, 2]);
  });

  test("does not outlive it until the whole memory is cleared", () => {
    const folder = mkdtempSync(join(tmpdir(), "misce-kept-"));
    try {
      const source = readFileSync(join(import.meta.dirname, "../../language/model/kept-with.ts"), "utf8");
      writeFileSync(join(folder, "kept-with.mjs"), transformSync(source, { loader: "ts" }).code);
      writeFileSync(
        join(folder, "churn.mjs"),
        `import { getHeapSpaceStatistics } from "node:v8";
        import { keptWith } from "./kept-with.mjs";
        const held = () => getHeapSpaceStatistics().find((s) => s.space_name === "old_space").space_used_size / 1e6;
        const size = keptWith((thing) => ({ thing, lines: thing.lines.map((line) => line + 1) }));
        const before = held();
        let most = 0;
        for (let i = 0; i < 100_000; i++) {
          size({ lines: Array.from({ length: 100 }, (_, k) => k) });
          if (i % 500 === 0) most = Math.max(most, held() - before);
        }
        process.stdout.write(String(most));`,
      );
      // 100,000 things of some 2 kB pass by; a WeakMap holds on to nearly 50 MB of them at a time.
      expect(Number(execFileSync(process.execPath, [join(folder, "churn.mjs")], { encoding: "utf8" }))).toBeLessThan(5);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
