/** Files that are not what they seem, through the command line with the real engine: each is told, and none makes a run look clean. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, rmSync, symlinkSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { engine } from "../../client/cli/engine.ts";
import { standardLibrary } from "../../language/checks/example.ts";
import { asOf, folderWith, runIn } from "./run-here.ts";

const check = ["check", ...asOf];
const good = { "library.misce": standardLibrary };

describe("UTF-16", () => {
  const text = "recipe a {\n}\n";
  const little = Buffer.from(`\ufeff${text}`, "utf16le");
  test.each([
    ["little end first, marked", little, "saved as UTF-16"],
    ["big end first, marked", Buffer.from(little).swap16(), "saved as UTF-16"],
    ["little end first, not marked", Buffer.from(text, "utf16le"), "Byte 2 of the file is zero"],
    ["big end first, not marked", Buffer.from(text, "utf16le").swap16(), "Byte 1 of the file is zero"],
  ])("%s: told, nothing of it read, and the rest is not all clear", async (_, bytes, message) => {
    const folder = folderWith({ ...good, "a.misce": bytes });
    const ran = await runIn(folder, check, { engine });
    expect(ran.out).toContain(message);
    expect(ran.out).toContain("Save it again as UTF-8");
    expect(ran.status).not.toBe(0);
  });

  test("one that other recipes need is told even where only those were asked about", async () => {
    const folder = folderWith({ ...good, "a.misce": little });
    const ran = await runIn(folder, [...check, "library.misce"], { engine });
    expect(ran.status).toBe(2);
    expect(ran.err).toContain("a.misce");
  });
});

describe("a library with a file that is not text answers nothing", () => {
  const bytes = Buffer.from("\ufefffluid rest {\n}\n", "utf16le");
  test.each([
    ["a recipe by its file", ["explain", "library.misce"]],
    ["a recipe by its name", ["explain", "magnesium-4g"]],
    ["the file itself", ["explain", "rest.misce"]],
    ["a plan", ["plan", "magnesium-4g"]],
    ["a shortage", ["plan", "--without", "saline-bag-100"]],
    ["a sheet", ["sheet", "magnesium-4g", "--out", "sheet.html"]],
    ["a fingerprint", ["fingerprint", "magnesium-4g"]],
    ["an approval", ["approve", "magnesium-4g", "--role", "pharmacist"]],
    ["an export", ["export", "magnesium-4g"]],
  ])("%s", async (_, args) => {
    const whole = await runIn(folderWith(good), args, { engine });
    if (!args.includes("rest.misce")) expect(whole.status).toBe(0);
    const ran = await runIn(folderWith({ ...good, "rest.misce": bytes }), args, { engine });
    expect(ran).toMatchObject({ status: 2, out: "" });
    expect(ran.err).toContain("rest.misce");
    expect(ran.err).toContain("Save it again as UTF-8");
  });
});

test("two files are compared with what could not be read of their library named", async () => {
  const bytes = Buffer.from("\ufefffluid rest {\n}\n", "utf16le");
  const folder = folderWith({ ...good, "rest.misce": bytes, "elsewhere/other.misce": "recipe other {\n}\n" });
  const ran = await runIn(folder, ["compare", "elsewhere/other.misce", "library.misce"], { engine });
  expect(ran.status).toBe(2);
  expect(ran.err).toContain("rest.misce");
});

describe("paths as Windows writes them", () => {
  test.each([
    ["a file", "sub\\library.misce"],
    ["a folder", "sub\\"],
    ["from here", ".\\sub\\library.misce"],
    ["up and down", "sub\\..\\sub"],
  ])("%s", async (_, path) => {
    const folder = folderWith({ "sub/library.misce": standardLibrary });
    expect(await runIn(folder, [...check, path], { engine })).toMatchObject({ status: 0, err: "" });
  });

  test("a drive that is not there is told as it was typed", async () => {
    const ran = await runIn(folderWith(good), [...check, "Q:\\recipes\\a.misce"], { engine });
    expect(ran).toMatchObject({ status: 2, out: "" });
    expect(ran.err).toContain('"Q:\\recipes\\a.misce" cannot be read: it does not exist.');
  });

  test("CRLF and a byte order mark, as Windows editors save them, read the same", async () => {
    const windows = `\ufeff${standardLibrary.replaceAll("\n", "\r\n")}`;
    expect(await runIn(folderWith({ "library.misce": windows }), check, { engine })).toMatchObject({ status: 0 });
  });
});

describe("what is no file, or is one no longer", () => {
  test("a folder with the name of a recipe is walked like any other", async () => {
    const folder = folderWith({ ...good, "odd.misce/b.misce": "recipe b {\n}\n" });
    const ran = await runIn(folder, [...check, "odd.misce"], { engine });
    expect(ran.out).toContain("odd.misce/b.misce");
    expect(ran.status).toBe(1);
    mkdirSync(join(folder, "empty.misce"));
    expect((await runIn(folder, [...check, "empty.misce"], { engine })).err).toContain("holds no .misce file");
  });

  test("a pipe with the name of a recipe is not waited for", async () => {
    const folder = folderWith(good);
    execFileSync("mkfifo", [join(folder, "pipe.misce")]);
    expect((await runIn(folder, [...check, "pipe.misce"], { engine })).err).toContain("neither a file nor a folder");
    const whole = await runIn(folder, check, { engine });
    expect(whole.status).toBe(2);
    expect(whole.err).toContain("pipe.misce. It could not be read: it is neither a file nor a folder");
    // Beside a file without a library the root is looked for, and every neighbour with it.
    const alone = folderWith({ "a.misce": "recipe a {\n}\n" });
    execFileSync("mkfifo", [join(alone, "0.misce")]);
    expect((await runIn(alone, [...check, "a.misce"], { engine })).out).toContain("1 file checked");
  });

  describe.skipIf(!existsSync("/dev/zero"))("under a flag that names a file to read", () => {
    const kinds = ["/dev/zero", "/dev/full", "pipe", "folder", "huge"] as const;
    const withKinds = () => {
      const folder = folderWith({ ...good, "first.misce": "recipe first {\n}\n" });
      execFileSync("mkfifo", [join(folder, "pipe")]);
      mkdirSync(join(folder, "folder"));
      writeFileSync(join(folder, "huge"), "");
      truncateSync(join(folder, "huge"), 3 * 1024 ** 3);
      return folder;
    };

    test.each(kinds)("%s is no baseline", async (kind) => {
      for (const words of [[], ["--write-baseline"]]) {
        const ran = await runIn(withKinds(), [...check, "--baseline", kind, ...words], { engine });
        expect(ran.status).toBe(2);
        expect(ran.err).toMatch(/The baseline ".*" cannot be read: it (is a|has more than 64 MB)/);
      }
    });

    test.each(kinds)("%s is no inventory, and no changed file", async (kind) => {
      const folder = withKinds();
      symlinkSync(kind.startsWith("/") ? kind : join(folder, kind), join(folder, "shelf.csv"));
      const words = kind === "huge" ? [] : [[...check, "--changed", kind]];
      for (const line of [
        [...check, "--inventory", "shelf.csv"],
        ["plan", "first", "--inventory", "shelf.csv"],
        ...words,
      ]) {
        const ran = await runIn(folder, line, { engine });
        expect(ran.status).toBe(2);
        expect(ran.err).toMatch(/is a folder|is no file|The file has 3072.0 MB|is a (device|pipe), not a file/);
      }
    });

    test.each(kinds)("%s is no side of a comparison, and no record of approvals", async (kind) => {
      const folder = withKinds();
      symlinkSync(kind.startsWith("/") ? kind : join(folder, kind), join(folder, "first.approvals.json"));
      const compared = await runIn(folder, ["compare", kind === "folder" ? "pipe" : kind, "library.misce"], { engine });
      expect(compared).toMatchObject({ status: 2, out: "" });
      expect(compared.err).toMatch(/is not compared\. (It cannot be read: it is a|The file has 3072.0 MB)/);
      const checked = await runIn(folder, check, { engine });
      expect(checked.out).toContain("approval-not-readable");
    });
  });

  // Reading this one gives an error of the disk, for root too.
  test.skipIf(!existsSync("/proc/self/mem"))(
    "a file that the disk refuses is told, and the rest is checked",
    async () => {
      const folder = folderWith({ ...good, "b.misce": "recipe b {\n}\n" });
      symlinkSync("/proc/self/mem", join(folder, "c.misce"));
      const ran = await runIn(folder, check, { engine });
      expect(ran.status).toBe(2);
      expect(ran.err).toContain("not checked: c.misce. The file could not be read");
      expect(ran.out).toContain("b.misce");
    },
  );

  test("a file that goes while the check runs is told, and its library is not all clear", async () => {
    const folder = folderWith({ ...good, "z.misce": "recipe b {\n}\n" });
    const gone = join(folder, "z.misce");
    // Standard input is read after the folders were walked and before any file is: there the file goes.
    const ran = await runIn(folder, [...check, ".", "-"], {
      engine,
      get stdin() {
        rmSync(gone, { force: true });
        return "# a remark\n";
      },
    });
    expect(existsSync(gone)).toBe(false);
    expect(ran.status).toBe(2);
    expect(ran.err).toContain("z.misce");
  });
});
