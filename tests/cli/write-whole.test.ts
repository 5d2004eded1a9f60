/** Common practice: a tool that is told to write to a device or a link must not put a file in its place. */
import {
  chmodSync,
  lstatSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { writeWhole } from "../../client/cli/write-whole.ts";

const folder = () => mkdtempSync(join(tmpdir(), "misce-write-"));

describe.skipIf(process.platform === "win32")("a file written whole", () => {
  test("goes through a link and keeps the mode", () => {
    const place = folder();
    const file = join(place, "a.txt");
    const link = join(place, "link.txt");
    writeFileSync(file, "before");
    chmodSync(file, 0o600);
    symlinkSync(file, link);
    writeWhole(link, "after");
    expect(lstatSync(link).isSymbolicLink()).toBe(true);
    expect(readFileSync(file, "utf8")).toBe("after");
    expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(readdirSync(place).sort()).toEqual(["a.txt", "link.txt"]);
  });

  test("leaves a device where it is", () => {
    const place = folder();
    const link = join(place, "nowhere");
    symlinkSync("/dev/null", link);
    writeWhole(link, "gone");
    expect(lstatSync(link).isSymbolicLink()).toBe(true);
    expect(statSync("/dev/null").isCharacterDevice()).toBe(true);
    expect(readdirSync(place)).toEqual(["nowhere"]);
  });

  test("leaves nothing behind where it cannot be written", () => {
    const place = folder();
    expect(() => writeWhole(join(place, "none/a.txt"), "x")).toThrow(/ENOENT/);
    expect(readdirSync(place)).toEqual([]);
  });
});
