/**
 * Every JSON form that the command line writes fits its schema in shared/, over the samples and through the real engine; and each
 * schema refuses what is not so. The reports of `misce check` with all their parts are tried in tests/cli/reports.test.ts.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import addFormats from "ajv-formats";
import { describe, expect, test } from "vitest";
import { engine } from "../../client/cli/engine.ts";
import { asOf, folderWith, runIn } from "../cli/run-here.ts";
import { textsOf } from "../sheet/sample-sheets.ts";

const shared = join(import.meta.dirname, "../../shared");
const samples = join(import.meta.dirname, "../../samples");
const ajv = new Ajv({ allErrors: true });
(addFormats as unknown as (a: Ajv) => void)(ajv);

const schemas = Object.fromEntries(
  readdirSync(shared)
    .filter((name) => name.endsWith(".schema.json"))
    .map((name) => {
      const schema = JSON.parse(readFileSync(join(shared, name), "utf8"));
      return [name.replace(".schema.json", ""), { schema, validate: ajv.compile(schema) }] as const;
    }),
);

function faults(name: string, json: unknown): string[] {
  const { validate } = schemas[name]!;
  validate(json);
  return (validate.errors ?? []).map((e) => `${e.instancePath} ${e.message}`);
}

const run = (cwd: string, ...words: string[]) => runIn(cwd, words, { engine });
const library = ["--library", "library", ...asOf];
const names = Object.keys(textsOf("library"))
  .filter((file) => file.includes("/recipes/"))
  .map((file) => file.replace(/^.*\/|\.misce$/g, ""));
const weight = (name: string) => (name === "vancomycin-loading" ? ["--weight", "62.3kg"] : []);

describe("fits its schema", () => {
  test("the report of a check", async () => {
    const { out } = await run(samples, "check", "library", "--format", "json", "--no-cache", "--quiet", ...asOf);
    expect(faults("report", JSON.parse(out))).toEqual([]);
  });

  test("a comparison", async () => {
    const { out } = await run(samples, "compare", "faulty/claim-differs", "library-containment", "--format", "json");
    expect(faults("comparison", JSON.parse(out))).toEqual([]);
  });

  test("the working of figures, of every sample", async () => {
    for (const name of names) {
      const { out } = await run(samples, "explain", name, "all", "--format", "json", ...library);
      expect([name, faults("working", JSON.parse(out))]).toEqual([name, []]);
    }
  });

  test("plans and shortages", async () => {
    for (const name of names.slice(0, 12)) {
      const { out } = await run(samples, "plan", name, "--bags", "4", "--format", "json", ...library, ...weight(name));
      expect([name, faults("plan", JSON.parse(out))]).toEqual([name, []]);
    }
    const { out } = await run(samples, "plan", "--without", "magnesium-vial-10", "--format", "json", ...library);
    expect(faults("shortage", JSON.parse(out))).toEqual([]);
  });

  test("the data of sheets, of every sample, and of one that is not for use", async () => {
    const folder = folderWith(textsOf("library"));
    const sheet = (name: string) =>
      run(folder, "sheet", name, ...weight(name), "--at", "2026-11-25T09:30", "--out", "sheet.json");
    const written = () => JSON.parse(readFileSync(join(folder, "sheet.json"), "utf8"));
    for (const name of names) {
      expect((await sheet(name)).status).toBe(0);
      expect([name, faults("sheet", written())]).toEqual([name, []]);
    }
    const faulty = folderWith({ "a.misce": readFileSync(join(samples, "faulty/claim-differs/library.misce"), "utf8") });
    const ran = await run(faulty, "sheet", "a.misce", "--at", "2026-11-25T09:30", "--out", "sheet.json");
    expect(ran.status).toBe(1);
    const marked = JSON.parse(readFileSync(join(faulty, "sheet.json"), "utf8"));
    expect(faults("sheet", marked)).toEqual([]);
    expect(marked.notForUse.length).toBeGreaterThan(0);
  });

  test("the summary of an export", async () => {
    const folder = folderWith(textsOf("library"));
    const words = ["--out", "bundle.json", "--summary", "summary.json", ...asOf];
    const { status, err } = await run(folder, "export", "magnesium-4g", "--format", "fhir", ...words);
    expect([status, err]).toEqual([0, expect.stringMatching(/Left out:\n {2}14 steps/)]);
    expect(faults("export", JSON.parse(readFileSync(join(folder, "summary.json"), "utf8")))).toEqual([]);
    expect(JSON.parse(readFileSync(join(folder, "bundle.json"), "utf8")).resourceType).toBe("Bundle");
  });

  test("the record that an approval writes; the sheet then names it, and says when it no longer holds", async () => {
    const texts = textsOf("library");
    const folder = folderWith(texts);
    const approved = await run(folder, "approve", "magnesium-4g", "--role", "pharmacist", ...asOf);
    expect(approved.status).toBe(0);
    const record = join(folder, "library/recipes/magnesium-4g.approvals.json");
    expect(faults("approvals", JSON.parse(readFileSync(record, "utf8")))).toEqual([]);
    // Dates stand in marks that keep them on one line.
    const sheet = async (at: string) =>
      (await run(at, "sheet", "magnesium-4g", "--at", "2026-11-25T09:30")).out.replace(/<\/?bdi[^>]*>/g, "");
    expect(await sheet(folder)).toContain("pharmacist, 2026-11-25, of this meaning");
    const file = "library/recipes/magnesium-4g.misce";
    const other = folderWith({
      ...texts,
      [file]: texts[file]!.replace("infuse-over     4 h", "infuse-over     5 h"),
      "library/recipes/magnesium-4g.approvals.json": readFileSync(record),
    });
    expect(await sheet(other)).toContain("pharmacist, 2026-11-25, of ANOTHER meaning");
    const lie = await run(folder, "sheet", "magnesium-4g", "--fingerprint", "misce-meaning-1:00");
    expect([lie.status, lie.err]).toEqual([2, expect.stringMatching(/but the recipe's meaning now has/)]);
  });
});

describe("a schema", () => {
  test("is there for each form, names it, and has it versioned", () => {
    const known = ["approvals", "comparison", "export", "plan", "report", "sheet", "shortage", "working"];
    expect(Object.keys(schemas)).toEqual(expect.arrayContaining(known));
    for (const { schema } of Object.values(schemas)) expect(schema.$id).toMatch(/^misce-[a-z]+\/\d+$/);
  });

  test.each(["approvals", "comparison", "export", "plan", "report", "sheet", "shortage", "working"])(
    "of %s refuses another version, and a thing that is not there",
    (name) => {
      expect(faults(name, { schema: `misce-${name}/0` }).join()).toMatch(/must be equal to constant/);
      expect(faults(name, { schema: "x", more: 1 }).join()).toMatch(/must NOT have additional properties/);
    },
  );
});

describe("misce export", () => {
  test("writes the bundle on standard output and what was left out beside it", async () => {
    const { status, out, err } = await run(samples, "export", "vancomycin-loading", "--weight", "62.3kg", ...library);
    expect(status).toBe(0);
    expect(JSON.parse(out).entry[0].resource).toMatchObject({ status: "draft", intent: "proposal" });
    expect(err).toMatch(/It is no order: status draft, intent proposal, no patient\./);
    expect(err).toMatch(/does not replace the pharmacist's check/);
  });

  test("writes nothing while an error stands, and says what", async () => {
    const folder = folderWith({ "a.misce": readFileSync(join(samples, "faulty/claim-differs/library.misce"), "utf8") });
    const { status, out, err } = await run(folder, "export", "a.misce", ...asOf);
    expect([status, out]).toEqual([1, ""]);
    expect(err).toMatch(/is not exported, since this stands against it:\n {2}\S/);
  });

  test.each([
    [["magnesium-9g"], /No recipe is called "magnesium-9g"/],
    [["vancomycin-loading"], /is ordered for a body weight of 40 kg to 120 kg/],
    [["magnesium-4g", "--format", "xml"], /--format is "xml"\. It can be fhir\./],
    [["magnesium-4g", "--lot", "mag=KQ-0000"], /Lot KQ-0000 of magnesium-vial-10 is not on the shelf/],
  ])("refuses %j", async (words, told) => {
    const { status, err } = await run(samples, "export", ...words, ...library);
    expect([status, err]).toEqual([2, expect.stringMatching(told)]);
  });
});
