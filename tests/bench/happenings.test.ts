/** What the bench notices must reach somebody: every kind of happening is taken up by a check. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";

const root = join(import.meta.dirname, "../../language");

function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return sources(path);
    return path.endsWith(".ts") ? [readFileSync(path, "utf8")] : [];
  });
}

const kinds = [...readFileSync(join(root, "bench/happenings.ts"), "utf8").matchAll(/^ {2}"?([a-z-]+)"?: \{/gm)].map(
  (m) => m[1]!,
);
const checks = sources(join(root, "checks")).join("\n");
const bench = sources(join(root, "bench")).join("\n");

it("knows kinds of happenings", () => {
  expect(kinds.length).toBeGreaterThan(40);
});

for (const kind of kinds) {
  it(`${kind} is noted by the bench and told by a check`, () => {
    expect(bench).toMatch(new RegExp(`note\\(\\s*"${kind}"`));
    expect(checks).toContain(`"${kind}"`);
  });
}
