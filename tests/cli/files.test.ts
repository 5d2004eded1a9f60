import { chmodSync, existsSync, readdirSync, readFileSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { decode } from "../../client/cli/decode.ts";
import { engine } from "./fake-engine.ts";
import { asOf, folderWith, runIn } from "./run-here.ts";

const site = "site {\n}\n";
const check = ["check", ...asOf];

function filesOf(out: string): string[] {
  return JSON.parse(out).files;
}

/** A file with something in it, and nothing to find. */
const some = "recipe r {\n}\n";

describe("which files", () => {
  test("folders are walked, sorted, without node_modules and dot folders", async () => {
    const folder = folderWith({
      "b.misce": some,
      "a/z.misce": some,
      "a/Z.MISCE": some,
      "a/notes.txt": "flaw error x",
      "node_modules/n.misce": some,
      ".git/g.misce": some,
      ".hidden.misce": some,
    });
    const ran = await runIn(folder, [...check, "--format", "json"]);
    expect(filesOf(ran.out)).toEqual([".hidden.misce", "a/Z.MISCE", "a/z.misce", "b.misce"]);
  });

  test("a circle of links ends, and a file reached twice is checked once", async () => {
    const folder = folderWith({ "in/a.misce": "flaw error x\n" });
    symlinkSync("..", join(folder, "in/up"));
    symlinkSync("self", join(folder, "self"));
    symlinkSync("a.misce", join(folder, "in/b.misce"));
    const ran = await runIn(folder, [...check, ".", "in", "in/a.misce", "--format", "json"]);
    expect(filesOf(ran.out)).toEqual(["in/a.misce"]);
    expect(JSON.parse(ran.out).findings).toHaveLength(1);
  });

  test("a link that leads nowhere is told, and the rest is checked", async () => {
    const folder = folderWith({ "a.misce": "flaw error x\n" });
    symlinkSync("gone.misce", join(folder, "b.misce"));
    const ran = await runIn(folder, check);
    expect(ran.status).toBe(2);
    expect(ran.out).toContain("flaw error x");
    expect(ran.err).toBe("misce: not checked: b.misce. It could not be read: it does not exist.\n");
    expect(ran.out).toContain(
      "1 file could not be checked:\n  b.misce: It could not be read: it does not exist.\nWhat stands there was missing from the check",
    );
  });

  test("backslashes in a path are read", async () => {
    const folder = folderWith({ "sub/a.misce": some });
    expect((await runIn(folder, [...check, "sub\\a.misce"])).status).toBe(0);
  });

  test.each([
    ["nothing there", ["nowhere"], '"nowhere" cannot be read: it does not exist.'],
    ["a folder without recipes", ["empty"], '"empty" holds no .misce file.'],
    ["an empty word", [""], "One of the paths is empty."],
    ["only an inventory", ["stock.csv"], "An inventory is checked together with the library"],
  ])("a check of nothing is refused: %s", async (_, words, message) => {
    const folder = folderWith({ "a.misce": some, "empty/x.txt": "", "stock.csv": "stock,lot,expires\n" });
    const ran = await runIn(folder, [...check, ...words]);
    expect(ran).toMatchObject({ status: 2, out: "" });
    expect(ran.err).toContain(message);
  });

  test.skipIf(process.getuid?.() === 0)("a file without permission is told", async () => {
    const folder = folderWith({ "a.misce": some });
    chmodSync(join(folder, "a.misce"), 0);
    expect((await runIn(folder, check)).status).toBe(2);
  });
});

describe("libraries", () => {
  test("a file is checked with all files of its nearest root, and only it is reported", async () => {
    const folder = folderWith({
      "lib/site.misce": site,
      "lib/stock/s.misce": "stock mag {\n}\nflaw error elsewhere\n",
      "lib/r/a.misce": "uses mag\n",
      "lib/inner/site.misce": site,
      "lib/inner/b.misce": "uses mag\n",
      "alone.misce": "uses mag\n",
    });
    expect((await runIn(folder, [...check, "lib/r/a.misce"])).status).toBe(0);
    expect((await runIn(join(folder, "lib/r"), [...check, "a.misce"])).status).toBe(0);
    const all = await runIn(folder, [...check, "--format", "json"]);
    const places = JSON.parse(all.out).findings.map((f: { place: { file: string } }) => f.place.file);
    expect(places).toEqual(["alone.misce", "lib/inner/b.misce", "lib/stock/s.misce"]);
  });

  test("a library that is not whole is never all clear", async () => {
    const folder = folderWith({ "site.misce": site, "lots.misce": Buffer.from([0x80]), "a.misce": some });
    const ran = await runIn(folder, [...check, "a.misce"]);
    expect(ran.status).toBe(2);
    expect(ran.err).toContain("not checked: lots.misce. Line 1 holds a character that is not UTF-8");
  });

  test("an inventory goes to the library it lies in, else to each, and is reported once", async () => {
    const folder = folderWith({
      "x/site.misce": site,
      "x/stock.csv": "flaw",
      "y/site.misce": site,
      "y/a.misce": some,
      "far.csv": "flaw",
    });
    const near = await runIn(folder, [...check, "x", "y", "--inventory", "x/stock.csv", "--format", "json"]);
    expect(JSON.parse(near.out).findings).toHaveLength(1);
    const far = await runIn(folder, [...check, "x", "y", "far.csv", "--format", "json"]);
    expect(JSON.parse(far.out)).toMatchObject({ counts: { error: 1 }, findings: [{ place: { file: "far.csv" } }] });
    expect(filesOf((await runIn(folder, [...check, "x", "--format", "json"])).out)).toEqual(["x/site.misce"]);
  });

  test("an inventory that cannot be read stops the run", async () => {
    const folder = folderWith({ "a.misce": some, "s.csv": Buffer.from([0xff, 0xfe, 0x61, 0x00]) });
    const ran = await runIn(folder, [...check, "a.misce", "--inventory", "s.csv"]);
    expect(ran).toMatchObject({ status: 2, out: "" });
    expect(ran.err).toContain("saved as UTF-16");
  });
});

describe("files that are not text", () => {
  test.each([
    ["Latin-1", Buffer.from("ok\n5 \xb5g\n", "latin1"), "Line 2 holds a character that is not UTF-8"],
    ["UTF-16", Buffer.from("\ufeffrecipe", "utf16le"), "saved as UTF-16"],
    ["zero byte", Buffer.from("recipe\0"), "Byte 7 of the file is zero"],
    ["cut short", Buffer.from("5 µ").subarray(0, 3), "Line 1 holds a character that is not UTF-8"],
    ["half of a pair", Buffer.from([0x61, 0x0a, 0x0a, 0xed, 0xa0, 0x80]), "Line 3 holds a character that is not UTF-8"],
  ])("give a finding: %s", async (_, bytes, message) => {
    const ran = await runIn(folderWith({ "a.misce": bytes }), check);
    expect(ran.status).toBe(1);
    expect(ran.out).toContain(message);
    expect(ran.out).toContain("file-not-utf-8");
  });

  test("one beyond 4 MB gives a finding, one of 4 MB is read", async () => {
    const size = 4 * 1024 * 1024;
    const folder = folderWith({
      "big.misce": `${" ".repeat(size)} `,
      "fits.misce": `flaw note x\n${" ".repeat(size - 12)}`,
    });
    const { findings } = JSON.parse((await runIn(folder, [...check, "--format", "json"])).out);
    expect(findings.map((f: { name: string }) => f.name)).toEqual(["file-too-large", "test-flaw"]);
  });

  test("a byte order mark stays, so that offsets agree with the disk", () => {
    expect(decode(Buffer.from("\ufeffab"), "a")).toEqual({ text: "\ufeffab" });
  });

  test("all other bytes decode to what they say", () => {
    expect(decode(Buffer.from("µ漢\u{1f600}"), "a")).toEqual({ text: "µ漢\u{1f600}" });
    expect(decode(Buffer.alloc(0), "a")).toEqual({ text: "" });
  });
});

describe("output", () => {
  test("goes to a file, whole or not at all", async () => {
    const folder = folderWith({ "a.misce": "flaw error x\n" });
    const ran = await runIn(folder, [...check, "--format", "json", "--output", "out.json"]);
    expect(ran).toMatchObject({ status: 1, out: "" });
    expect(JSON.parse(readFileSync(join(folder, "out.json"), "utf8")).counts.error).toBe(1);
    const none = await runIn(folder, [...check, "--output", "nowhere/out.txt"]);
    expect(none.status).toBe(2);
    expect(none.err).toContain('cannot be written to "nowhere/out.txt"');
    expect(readdirSync(folder).sort()).toEqual(["a.misce", "out.json"]);
  });

  test("where its folder is missing, that is what is told", async () => {
    const folder = folderWith({ "a.misce": "stock a\n" });
    for (const flags of [
      ["--output", "none/a.txt"],
      ["--baseline", "none/a.json", "--write-baseline"],
    ]) {
      const ran = await runIn(folder, ["check", ...asOf, ...flags]);
      expect(ran).toMatchObject({ status: 2, out: "" });
      expect(ran.err).toContain("its folder does not exist.");
    }
  });

  test("quiet leaves the summary out", async () => {
    const folder = folderWith({ "a.misce": some, "b.misce": "flaw error x\n" });
    expect(await runIn(folder, [...check, "a.misce", "--quiet"])).toEqual({ status: 0, out: "", err: "" });
    const found = await runIn(folder, [...check, "b.misce", "--quiet"]);
    expect(found.out).toContain("flaw error x");
    expect(found.out).not.toContain("checked as of");
  });

  test("progress: on a terminal, after a second, wiped away", async () => {
    const folder = folderWith({ "a.misce": some, "b.misce": some, "c.misce": some });
    let time = 0;
    const slow = {
      now: () => {
        time += 700;
        return new Date(Date.UTC(2026, 10, 25) + time);
      },
    };
    const ran = await runIn(folder, check, { ...slow, terminal: true });
    expect(ran.err).toBe("\r2 of 3 files checked\u001b[K\r3 of 3 files checked\u001b[K\r\u001b[K");
    expect((await runIn(folder, check, slow)).err).toBe("");
    expect((await runIn(folder, [...check, "--quiet"], { ...slow, terminal: true })).err).toBe("");
  });
});

describe("format", () => {
  test("writes what changes, says so, and is content the second time", async () => {
    const folder = folderWith({ "a.misce": "recipe a {\n      tap mag\n}\n", "b.misce": "x\n" });
    expect(await runIn(folder, ["format", "--check"])).toMatchObject({ status: 1, out: "would change  a.misce\n" });
    expect(readFileSync(join(folder, "a.misce"), "utf8")).toContain("      tap");
    chmodSync(join(folder, "a.misce"), 0o640);
    expect(await runIn(folder, ["format"])).toMatchObject({ status: 0, out: "changed  a.misce\n" });
    expect(readFileSync(join(folder, "a.misce"), "utf8")).toBe("recipe a {\n  tap mag\n}\n");
    expect(await runIn(folder, ["format", "--check"])).toMatchObject({ status: 0, out: "" });
    expect(readdirSync(folder).sort()).toEqual(["a.misce", "b.misce"]);
  });

  test("what has nothing to lay out is no success", async () => {
    const folder = folderWith({ "lots.csv": "stock,lot,expires\n", "a.misce": "    x\n" });
    for (const words of [
      ["format", "lots.csv"],
      ["format", "--check", "-"],
      ["format", "-"],
    ]) {
      expect(await runIn(folder, words)).toMatchObject({ status: 2, out: "" });
    }
    expect((await runIn(folder, ["format", "--check", "lots.csv", "a.misce"])).status).toBe(1);
  });

  test("a link stays a link", async () => {
    const folder = folderWith({ "real/a.misce": "    x\n" });
    symlinkSync("real/a.misce", join(folder, "a.misce"));
    await runIn(folder, ["format", "a.misce"]);
    expect(readFileSync(join(folder, "real/a.misce"), "utf8")).toBe("  x\n");
  });

  test("a file whose content would change, or that is no text, is left as it was", async () => {
    const folder = folderWith({ "a.misce": "   eat me\n", "b.misce": Buffer.from([0xff]), "c.misce": "    x\n" });
    const ran = await runIn(folder, ["format"]);
    expect(ran).toMatchObject({ status: 2, out: "changed  c.misce\n" });
    expect(ran.err).toMatch(/left as it was: a\.misce[\s\S]*left as it was: b\.misce/);
    expect(readFileSync(join(folder, "a.misce"), "utf8")).toBe("   eat me\n");
    expect(existsSync(join(folder, "b.misce"))).toBe(true);
  });
});

describe("explain", () => {
  test("tells title, reason, source and both examples", async () => {
    const { out, status } = await runIn("/", ["explain", "test-flaw"]);
    expect(status).toBe(0);
    for (const part of [
      "A flaw that a test asked for",
      "Tests need something",
      "common practice",
      "flaw error",
      "Right:",
    ]) {
      expect(out).toContain(part);
    }
  });

  test("a flag that it does not heed is refused", async () => {
    const [check] = await engine.checks();
    for (const words of [[check!.name], []]) {
      for (const flag of [
        ["--weight", "60kg"],
        ["--body-surface", "2m2"],
        ["--format", "json"],
      ]) {
        const ran = await runIn(folderWith({}), ["explain", ...words, ...flag]);
        expect(ran).toMatchObject({ status: 2, out: "" });
        expect(ran.err).toContain(`Leave out ${flag[0]}.`);
      }
      const harmless = ["--format", "text", "--as-of", "2026-11-25"];
      expect((await runIn(folderWith({}), ["explain", ...words, ...harmless])).status).toBe(0);
      expect((await runIn(folderWith({}), ["explain", ...words, "--as-of", "nonsense"])).status).toBe(2);
    }
  });

  test("an unknown name brings near ones; without a name all are listed", async () => {
    expect(await runIn("/", ["explain", "test-flow"])).toMatchObject({
      status: 2,
      err: 'misce: No check is called "test-flow". Did you mean test-flaw?\n',
    });
    expect((await runIn("/", ["explain"])).out).toMatch(
      /structure\n {2}file-declares-nothing[\s\S]*volumes\n {2}test-flaw/,
    );
  });
});
