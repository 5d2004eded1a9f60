/** `misce approve` on a day that has not come. */
import { cpSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { engine } from "../../client/cli/engine.ts";
import { folderWith, runIn } from "./run-here.ts";

test("an approval of a day that has not come is written, and said not to count until then", async () => {
  const folder = folderWith({});
  cpSync(join(import.meta.dirname, "../../samples/library"), folder, { recursive: true });
  const approve = (day: string) =>
    runIn(folder, ["approve", "magnesium-4g", "--role", "pharmacist", "--as-of", day], { engine });
  const later = await approve("2026-11-26");
  expect(later).toMatchObject({ status: 0, err: expect.stringContaining("2026-11-26 has not come yet") });
  expect(later.err).toContain("today is 2026-11-25. Until that day the approval does not count.");
  expect((await approve("2026-11-25")).err).toBe("");
});
