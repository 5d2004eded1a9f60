/** Comparison, approvals and drivers with real git in scratch repositories. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { Scratch, useProgram } from "./scratch.ts";

const program = useProgram();
const magnesium = "recipes/magnesium-4g.misce";
let scratch: Scratch;

beforeEach(() => {
  scratch = Scratch.withSamples(program.path());
});
afterEach(() => scratch.remove());

const asOf = ["--as-of", "2026-11-25"];

describe("compare", () => {
  test("revisions, the working copy, what is staged, folders and files", () => {
    expect(scratch.misce("compare", ...asOf)).toMatchObject({
      status: 0,
      out: expect.stringMatching(/^Nothing changed in meaning between HEAD and the working copy/),
    });
    scratch.edit(magnesium, "4 g per bag", "8 g per bag");
    expect(scratch.misce("compare", ...asOf)).toMatchObject({
      status: 1,
      out: expect.stringContaining("dose 4 g per bag → dose 8 g per bag  (+4 g, +100 %, 2 times)"),
    });
    expect(scratch.misce("compare", "--staged", ...asOf).status).toBe(0);
    scratch.git("add", "-A");
    expect(scratch.misce("compare", "--staged", ...asOf).status).toBe(1);
    scratch.commit("eight");
    expect(scratch.misce("compare", "HEAD~1", "HEAD", ...asOf).out).toContain("between HEAD~1 and HEAD");
    expect(scratch.misce("compare", "HEAD~1", "recipes", ...asOf).out).toContain("recipe magnesium-4g was changed");
    expect(scratch.misce("compare", "HEAD~1", magnesium, ...asOf).out).toContain("dose 4 g per bag → dose 8 g per bag");
    writeFileSync(join(scratch.folder, "other.misce"), scratch.read(magnesium).replace("8 g per bag", "4 g per bag"));
    expect(scratch.misce("compare", magnesium, "other.misce", ...asOf).out).toContain(
      "dose 8 g per bag → dose 4 g per bag",
    );
  });

  test("one file stands among the others as they are on each side, and only what reaches it is told", () => {
    const oxytocin = "recipes/oxytocin-10-units.misce";
    for (const file of [oxytocin, "recipes/oxytocin-40-units.misce", "stock/ampoules.misce", "lots.misce"])
      scratch.edit(file, "oxytocin-ampoule", "oxytocin-glass-ampoule");
    scratch.edit(magnesium, "4 g per bag", "8 g per bag");
    const { out } = scratch.misce("compare", "HEAD", oxytocin, ...asOf);
    expect(out).not.toContain("unknown-name");
    expect(out).not.toContain("magnesium");
    scratch.edit("stock/ampoules.misce", "10 units/mL", "5 units/mL");
    const changed = scratch.misce("compare", "HEAD", oxytocin, ...asOf);
    expect(changed).toMatchObject({ status: 1, out: expect.stringMatching(/through stock oxytocin-glass-ampoule/) });
    expect(changed.out).toMatch(
      /^1 declaration says the same in HEAD and in \S+ in the working copy, but something else follows/,
    );
    expect(changed.out).toContain("recipe oxytocin-10-units");
    expect(changed.out).not.toContain("oxytocin-40-units");
  });

  test("a submodule that changed is told as not compared, one without recipes is not", () => {
    const [part, plain] = [new Scratch(program.path()), new Scratch(program.path())];
    writeFileSync(join(part.folder, "more.misce"), "stock more {\n}\n");
    writeFileSync(join(plain.folder, "README.md"), "");
    for (const [name, of] of Object.entries({ part, plain })) {
      of.commit("first");
      scratch.git("-c", "protocol.file.allow=always", "submodule", "add", "-q", of.folder, `stock/${name}`);
      of.remove();
    }
    scratch.commit("second");
    expect(scratch.misce("compare", ...asOf)).toMatchObject({ status: 0, err: "" });
    writeFileSync(join(scratch.folder, "stock/plain/README.md"), "changed");
    expect(scratch.misce("compare", ...asOf)).toMatchObject({ status: 0, err: "" });
    // What was taken out changed too.
    rmSync(join(scratch.folder, "stock/part/more.misce"));
    for (const words of [[], ["HEAD", "stock"]]) {
      const ran = scratch.misce("compare", ...asOf, ...words);
      expect(ran.status).toBe(2);
      expect(ran.err).toMatch(/part\. It is a repository of its own and has changed\./);
      expect(ran.err).not.toContain("plain");
    }
    expect(scratch.misce("compare", ...asOf, "HEAD", "recipes")).toMatchObject({ status: 0, err: "" });
  });

  test("a file or folder that was deleted is compared as the revision had it", () => {
    rmSync(join(scratch.folder, magnesium));
    const taken =
      /^1 declaration changed between HEAD and \S+ in the working copy, deleted[\s\S]*recipe magnesium-4g was taken out/;
    expect(scratch.misce("compare", "HEAD", magnesium, ...asOf)).toMatchObject({
      status: 1,
      out: expect.stringMatching(taken),
    });
    scratch.git("rm", "-q", magnesium);
    expect(scratch.misce("compare", "HEAD", magnesium, ...asOf).out).toMatch(taken);
    expect(scratch.misce("compare", magnesium, "HEAD", ...asOf).out).toContain("recipe magnesium-4g is new");
    scratch.commit("without");
    expect(scratch.misce("compare", "HEAD~1", magnesium, ...asOf).status).toBe(1);
    for (const words of [
      ["HEAD", magnesium],
      ["HEAD", "recipes/typo.misce"],
      ["HEAD", "HAED"],
    ]) {
      expect(scratch.misce("compare", ...words, ...asOf)).toMatchObject({
        status: 2,
        err: expect.stringMatching(
          /is no revision that git knows, and no recipe file or folder of recipes here or in HEAD/,
        ),
      });
    }
    rmSync(join(scratch.folder, "recipes"), { recursive: true });
    expect(scratch.misce("compare", "HEAD", "recipes", ...asOf).out).toMatch(
      /^\d+ declarations changed between HEAD and recipes in the working copy, deleted/,
    );
  });

  test("in a shallow copy an earlier revision is said to be one to fetch", () => {
    scratch.git("commit", "-q", "--allow-empty", "-m", "second");
    writeFileSync(join(scratch.folder, ".git/shallow"), scratch.git("rev-parse", "HEAD"));
    expect(scratch.misce("compare", "HEAD~1", "HEAD", ...asOf)).toMatchObject({
      status: 2,
      err: expect.stringContaining("This copy is shallow: an earlier revision has to be fetched first."),
    });
  });

  test("a folder is judged within its library, as a file is", () => {
    scratch.edit(magnesium, "4 g per bag", "40 g per bag");
    const { out } = scratch.misce("compare", "HEAD", "recipes", ...asOf);
    expect(out).toContain("error dose-not-delivered appeared");
    expect(out).not.toContain("Not compared");
  });

  test("what is no recipe file has no meaning that could be the same", () => {
    writeFileSync(join(scratch.folder, "shelf.csv"), "");
    expect(scratch.misce("compare", "HEAD", "shelf.csv", ...asOf)).toMatchObject({
      status: 2,
      err: expect.stringContaining("is no recipe file"),
    });
  });

  test("a link is what it leads to, which stands under its own name; one that leads out is told", () => {
    symlinkSync("recipes/magnesium-4g.misce", join(scratch.folder, "link.misce"));
    scratch.commit("link");
    for (const words of [[], ["HEAD~1"], ["HEAD~1", "HEAD"], ["HEAD", "link.misce"]])
      expect(scratch.misce("compare", ...words, ...asOf)).toMatchObject({ status: 0, err: "" });
    scratch.edit(magnesium, "4 g per bag", "8 g per bag");
    expect(scratch.misce("compare", "HEAD", "link.misce", ...asOf).out).toContain(
      "dose 4 g per bag → dose 8 g per bag",
    );
    symlinkSync("../elsewhere.misce", join(scratch.folder, "out.misce"));
    expect(scratch.misce("compare", ...asOf)).toMatchObject({
      status: 2,
      err: expect.stringMatching(/not compared: out\.misce\. It is a link to \.\.\/elsewhere\.misce/),
    });
  });

  test("a file in whose place a folder or a pipe lies is no fault of the program", () => {
    rmSync(join(scratch.folder, "lots.misce"));
    execFileSync("mkfifo", [join(scratch.folder, "lots.misce")]);
    expect(scratch.misce("compare", ...asOf)).toMatchObject({
      status: 2,
      err: expect.stringMatching(/not compared: lots\.misce\. It cannot be read: it is a pipe/),
    });
    rmSync(join(scratch.folder, "lots.misce"));
    mkdirSync(join(scratch.folder, "lots.misce"));
    rmSync(join(scratch.folder, "recipes"), { recursive: true });
    writeFileSync(join(scratch.folder, "recipes"), "");
    const ran = scratch.misce("compare", ...asOf);
    expect([ran.status, ran.err]).toEqual([1, ""]);
    expect(ran.out).toContain("recipe magnesium-4g was taken out");
  });

  test("says what it cannot do", () => {
    expect(scratch.misce("compare", "no-such-thing")).toMatchObject({
      status: 2,
      err: expect.stringMatching(/"no-such-thing" is no file or folder, and git knows no revision/),
    });
    expect(scratch.misce("compare", "HEAD", "--level", "colour")).toMatchObject({
      status: 2,
      err: expect.stringMatching(/--level/),
    });
    writeFileSync(join(scratch.folder, "recipes/half.misce"), Buffer.from([0xff, 0xfe, 0x20]));
    expect(scratch.misce("compare", ...asOf)).toMatchObject({
      status: 2,
      err: expect.stringMatching(/not compared: recipes\/half\.misce/),
    });
  });
});

describe("approvals", () => {
  test("hold for the meaning that was approved, and tell fact by fact what changed since", () => {
    expect(scratch.misce("approve", "magnesium-4g", "--role", "pharmacist", ...asOf).status).toBe(0);
    expect(existsSync(join(scratch.folder, "recipes/magnesium-4g.approvals.json"))).toBe(true);
    scratch.commit("approved");
    scratch.edit(magnesium, "  order {\n", "  # unchanged in meaning\n  order {\n");
    expect(scratch.misce("check", ...asOf, magnesium).status).toBe(0);
    scratch.edit("drugs/magnesium-sulfate.misce", /high-alert +yes/, "high-alert no");
    scratch.edit(magnesium, "infuse-over     4 h", "infuse-over     5 h");
    const check = scratch.misce("check", ...asOf, magnesium);
    expect(check.status).toBe(1);
    expect(check.out).toContain("Approved by pharmacist on 2026-11-25, but the meaning has changed since:");
    expect(check.out).toContain("order: infuse-over 4 h → infuse-over 5 h");
    expect(check.out).toContain("drug magnesium-sulfate: high-alert yes → high-alert no");
    expect(scratch.misce("approve", "magnesium-4g", "--role", "pharmacist", ...asOf).status).toBe(0);
    expect(scratch.misce("check", ...asOf, magnesium).status).toBe(0);
  });

  test("without history name the declarations that changed", () => {
    scratch.misce("approve", "magnesium-4g", "--role", "pharmacist", ...asOf);
    scratch.edit("drugs/magnesium-sulfate.misce", /high-alert +yes/, "high-alert no");
    scratch.git("checkout", "-q", "--orphan", "fresh");
    scratch.commit("history lost");
    scratch.git("branch", "-q", "-D", "main");
    scratch.git("reflog", "expire", "--expire=now", "--all");
    scratch.git("gc", "-q", "--prune=now");
    expect(scratch.misce("check", ...asOf, magnesium).out).toContain("drug magnesium-sulfate says something else");
  });

  test("are asked for by the site, for every recipe that is checked, until they are given", () => {
    scratch.edit("site.misce", "  note ", "  approvals       pharmacist\n  note ");
    const check = () => scratch.misce("check", ...asOf, magnesium);
    expect(check()).toMatchObject({
      status: 1,
      out: expect.stringMatching(/No approval by pharmacist is on record for magnesium-4g[\s\S]*approval-missing/),
    });
    expect(scratch.misce("approve", "magnesium-4g", "--role", "pharmacist", ...asOf).status).toBe(0);
    expect(check()).toMatchObject({ status: 0 });
    expect(scratch.misce("check", ...asOf).out.match(/No approval by pharmacist/g)?.length).toBeGreaterThan(40);
  });

  test("are judged where only the record changed, is gone, or is nothing that git looks at", () => {
    scratch.edit("site.misce", "  note ", "  approvals       pharmacist\n  note ");
    scratch.misce("approve", magnesium, "--role", "pharmacist", ...asOf);
    scratch.commit("approved");
    const record = "recipes/magnesium-4g.approvals.json";
    const check = (...words: string[]) => scratch.misce("check", ...asOf, "--no-cache", ...words).out;
    const since = () => check("--changed-since", "HEAD");
    expect(since()).toContain("No file checked");
    scratch.edit(record, /"date": "2026-11-25"/, '"date": "never"');
    expect(since()).toContain("approval-not-readable");
    expect(check("--changed", record)).toContain("approval-not-readable");
    rmSync(join(scratch.folder, record));
    expect(since()).toContain("1 file checked");
    expect(since()).toContain("approval-missing");
    scratch.git("rm", "-q", "--cached", record);
    scratch.commit("not kept");
    expect(since()).toContain("No file checked");
    writeFileSync(join(scratch.folder, ".gitignore"), "*.approvals.json\n");
    scratch.commit("ignored");
    writeFileSync(join(scratch.folder, record), "{}");
    expect(since()).toContain("approval-not-readable");
  });

  test("are refused for a role the site does not have, and for a recipe with errors", () => {
    expect(scratch.misce("approve", "magnesium-4g", "--role", "porter", ...asOf)).toMatchObject({
      status: 2,
      err: expect.stringContaining("Its roles are pharmacist, aseptic-lead"),
    });
    scratch.edit(magnesium, "4 g per bag", "40 g per bag");
    expect(scratch.misce("approve", "magnesium-4g", "--role", "pharmacist", ...asOf)).toMatchObject({
      status: 1,
      err: expect.stringContaining("dose-outside-window"),
    });
  });

  test("of a later day than is judged do not count, on a sheet either", () => {
    scratch.misce("approve", "magnesium-4g", "--role", "pharmacist", ...asOf);
    scratch.edit("recipes/magnesium-4g.approvals.json", "2026-11-25", "2126-12-01");
    expect(scratch.misce("check", ...asOf).out).toContain("approval-later");
    scratch.misce("sheet", "magnesium-4g", "--at", "2026-11-25T09:30", "--out", "sheet.json");
    const { approvals, revision } = JSON.parse(scratch.read("sheet.json"));
    expect(approvals[0].text).toContain("given AFTER the day of this sheet; it does not hold");
    expect(revision ?? null).toBeNull();
  });

  test("a spoilt record approves nothing", () => {
    scratch.misce("approve", "magnesium-4g", "--role", "pharmacist", ...asOf);
    writeFileSync(join(scratch.folder, "recipes/magnesium-4g.approvals.json"), "<<<<<<< ours");
    expect(scratch.misce("check", ...asOf, magnesium).out).toContain("approval-not-readable");
  });
});

describe("git-setup", () => {
  test("makes the folder of hooks where there is none", () => {
    scratch.git("config", "core.hooksPath", "shared/hooks");
    expect(scratch.misce("git-setup")).toMatchObject({ status: 0, err: "" });
    expect(scratch.read("shared/hooks/pre-merge-commit")).toContain("merge-check");
  });

  test("refuses an empty command, and changes nothing", () => {
    expect(scratch.misce("git-setup", "--command", " ")).toMatchObject({ status: 2, out: "" });
    expect(scratch.git("status", "--short")).toBe("");
    expect(scratch.gitTry("config", "merge.misce.driver").out).toBe("");
  });

  test("a merge that is to be checked against an unknown revision says which", () => {
    expect(scratch.misce("merge-check", "nowhere").err).toContain('git knows no revision "nowhere" here.');
    expect(scratch.misce("merge-check").err).toContain("No merge is under way here.");
  });
});

describe("git's own commands", () => {
  beforeEach(() => {
    expect(scratch.misce("git-setup")).toMatchObject({ status: 0, err: "" });
    scratch.commit("attributes");
  });

  test("git diff is silent on layout and shows a changed fact as canonical text", () => {
    scratch.edit(magnesium, "infuse-over     4 h", "infuse-over  240 min   # as before");
    expect(scratch.git("diff")).toBe("");
    scratch.edit(magnesium, "240 min", "2 h");
    const diff = scratch.git("diff");
    expect(diff.split("\n").filter((l) => /^[-+] /.test(l))).toEqual([
      "-  order: infuse-over 4 h",
      "+  order: infuse-over 2 h",
    ]);
  });

  test("git diff as misce compare tells it", () => {
    scratch.misce("git-setup", "--diff", "compare");
    scratch.edit(magnesium, "infuse-over     4 h", "infuse-over     2 h");
    expect(scratch.git("diff")).toContain("pump rate: 27 mL/h → 54 mL/h");
    scratch.commit("faster");
    // Of past states git gives two loose files; they are judged in the library of the place that they had.
    const past = scratch.git("diff", "HEAD~1", "HEAD");
    expect(past).toContain("between the old state and the new state");
    expect(past).toContain("pump rate: 27 mL/h → 54 mL/h");
    scratch.git("rm", "-q", magnesium);
    const gone = scratch.git("diff", "HEAD");
    expect(gone).toContain("recipe magnesium-4g was taken out");
    expect(gone).not.toContain("unknown-name");
  });

  test("two changes of neighbouring facts merge, and the result says both", () => {
    branch("theirs", () => scratch.edit(magnesium, "infuse-over     4 h", "infuse-over     5 h"));
    scratch.edit(magnesium, "access          peripheral", "access          central");
    scratch.commit("ours");
    expect(scratch.gitTry("merge", "-q", "--no-edit", "theirs")).toMatchObject({ status: 0 });
    const text = scratch.read(magnesium);
    expect(text).toMatch(/access +central/);
    expect(text).toMatch(/infuse-over +5 h/);
  });

  test("a recipe renamed here and changed there is both, under whichever name its file has", () => {
    branch("theirs", () => scratch.edit(magnesium, "infuse-over     4 h", "infuse-over     5 h"));
    scratch.edit(magnesium, "recipe magnesium-4g", "recipe magnesium-four-gram");
    scratch.git("mv", magnesium, "recipes/four-gram.misce");
    scratch.commit("ours");
    scratch.git("merge", "-q", "--no-edit", "theirs");
    const text = scratch.read("recipes/four-gram.misce");
    expect(text).toContain("recipe magnesium-four-gram {");
    expect(text).toContain("infuse-over     5 h");
  });

  test("the same fact with two meanings is a conflict; in two spellings it is none", () => {
    branch("theirs", () => scratch.edit(magnesium, "infuse-over     4 h", "infuse-over     5 h"));
    branch("spelt", () => scratch.edit(magnesium, "infuse-over     4 h", "infuse-over     360 min"));
    scratch.edit(magnesium, "infuse-over     4 h", "infuse-over     6 h");
    scratch.commit("ours");
    expect(scratch.gitTry("merge", "-q", "--no-edit", "spelt").status).toBe(0);
    const merge = scratch.gitTry("merge", "-q", "--no-edit", "theirs");
    expect(merge.status).toBe(1);
    expect(merge.err).toContain(
      "recipe magnesium-4g, order was given two meanings. Ours says infuse-over 6 h; theirs says infuse-over 5 h",
    );
    expect(scratch.read(magnesium)).toMatch(
      /<{7} ours\n +infuse-over +6 h\n\|{7} base\n[^=]*={7}\n +infuse-over +5 h\n>{7} theirs/,
    );
  });

  // The library allows magnesium up to 150 mg/min. By hand: 4 g in 30 min is 133, 5 g in 4 h is 21, 5 g in 30 min is 167 mg/min.
  test("two sound edits of one recipe that break a limit together stop the merge", () => {
    branch("theirs", () => {
      scratch.edit(magnesium, "4 g per bag", "5 g per bag");
      scratch.edit(magnesium, "draw 4 g", "draw 5 g");
      scratch.edit(magnesium, "= 8 mL", "= 10 mL");
      scratch.edit(magnesium, "37.04 mg/mL", "45.45 mg/mL");
      scratch.edit(magnesium, "sulfate 4 g", "sulfate 5 g");
      expect(scratch.misce("check", "--level", "error", ...asOf, magnesium).status).toBe(0);
    });
    scratch.edit(magnesium, "infuse-over     4 h", "infuse-over     30 min");
    expect(scratch.misce("check", "--level", "error", ...asOf, magnesium).status).toBe(0);
    scratch.commit("ours");
    const merge = scratch.gitTry("merge", "-q", "--no-edit", "theirs");
    expect(merge.status).not.toBe(0);
    expect(merge.err).toMatch(/each side is sound, but together they are not: rate-above-limit/);
  });

  test("two sound edits in two files that break a limit together stop the merge, and a sound pair goes through", () => {
    branch("theirs", () =>
      scratch.edit(
        "drugs/magnesium-sulfate.misce",
        "rate           up to 150 mg/min",
        "rate           up to 100 mg/min",
      ),
    );
    branch("sound", () =>
      scratch.edit(
        "drugs/magnesium-sulfate.misce",
        "rate           up to 150 mg/min",
        "rate           up to 140 mg/min",
      ),
    );
    scratch.edit(magnesium, "infuse-over     4 h", "infuse-over     30 min");
    scratch.commit("ours");
    const merge = scratch.gitTry("merge", "-q", "--no-edit", "theirs");
    expect(merge.status).not.toBe(0);
    expect(merge.err).toMatch(
      /magnesium-4g\.misce: each side of the merge is sound, but together they are not: rate-above-limit/,
    );
    scratch.git("merge", "--abort");
    expect(scratch.gitTry("merge", "-q", "--no-edit", "sound")).toMatchObject({ status: 0 });
  });

  test("a file that cannot be read is merged by lines, said so, and left for a person", () => {
    branch("theirs", () => scratch.edit(magnesium, "infuse-over     4 h", "infuse-over     5 h"));
    scratch.edit(magnesium, "  materials {", "  materials");
    scratch.commit("ours");
    const merge = scratch.gitTry("merge", "-q", "--no-edit", "theirs");
    expect(merge.status).toBe(1);
    expect(merge.err).toContain("not merged by meaning, but by lines");
  });

  function branch(name: string, edit: () => void): void {
    scratch.git("checkout", "-q", "-b", name);
    edit();
    scratch.commit(name);
    scratch.git("checkout", "-q", "main");
  }
});
