import { createRequire } from "node:module";
import { Ajv } from "ajv";
import addFormats from "ajv-formats";
import { describe, expect, test } from "vitest";
import schema from "../../shared/report.schema.json";
import { asOf, folderWith, runIn } from "./run-here.ts";

const require = createRequire(import.meta.url);
/** Everything that could break out of a printed form: XML, JSON, workflow commands, terminal escapes, halves of pairs. */
const hostile = `%0A::error::x, a:b ]]> </failure><b a="'&amp;" \u0000\u0008\u001b[31m \u202e \ufffe \u{1f600} \\ [x](1)`;
const recipe = `recipe a {\n  flaw error ${hostile.replace("\u0000", "")}\n  flaw warning two\n  flaw note three\n  quiet flaw\n}\n`;
const oddName = "od:d, %20 <&\"'> [x] é\u{1f600}.misce";
const hostileName = process.platform === "win32" ? "odd é.misce" : oddName;

async function report(form: string, more: Record<string, string | Buffer> = {}) {
  const folder = folderWith({ "site.misce": "site {\n}\n", [`sub/${hostileName}`]: recipe, ...more });
  const ran = await runIn(folder, ["check", ".", ...asOf, "--format", form]);
  expect(ran.status).toBe(1);
  return ran.out;
}

describe("JSON", () => {
  const ajv = new Ajv({ allErrors: true });
  (addFormats as unknown as (a: Ajv) => void)(ajv);
  const validate = ajv.compile(schema);

  test("is as its schema says, with every part in use", async () => {
    const folder = folderWith({
      "site.misce": "site {\n}\n",
      "a.misce": recipe,
      "b.misce": "crash",
      "c.misce": Buffer.from([0xff, 0x20]),
    });
    const ran = await runIn(folder, ["check", ".", ...asOf, "--format", "json"]);
    const json = JSON.parse(ran.out);
    expect(validate(json), JSON.stringify(validate.errors)).toBe(true);
    expect(json).toMatchObject({
      schema: "misce-report/1",
      asOf: "2026-11-25",
      exitStatus: 2,
      counts: { error: 2, warning: 1, note: 1, silenced: 1, baseline: 0 },
      notChecked: [{ file: "b.misce" }],
    });
    expect(ran.status).toBe(2);
  });

  test("with a baseline too, and the schema refuses what is not so", async () => {
    const folder = folderWith({ "site.misce": "site {\n}\n", "a.misce": recipe });
    const words = ["check", ".", ...asOf, "--format", "json", "--baseline", "known.json"];
    const json = JSON.parse((await runIn(folder, [...words, "--write-baseline"])).out);
    expect(validate(json), JSON.stringify(validate.errors)).toBe(true);
    expect(json.baseline).toMatchObject({ file: "known.json", known: 3, gone: [] });
    expect(json.baseline.errorsIn).toHaveLength(1);
    expect(validate({ ...json, exitStatus: 4 })).toBe(false);
    expect(validate({ ...json, extra: 1 })).toBe(false);
  });
});

describe("SARIF", () => {
  /** The published schema, draft 4 there; `id` is all in which its use of draft 4 differs from what Ajv reads, and one pattern needs a lenient engine. */
  const published = require("@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json") as Record<string, unknown>;
  const { $schema: _, id: __, ...asRead } = published;
  const ajv = new Ajv({ strict: false, allErrors: true, unicodeRegExp: false });
  (addFormats as unknown as (a: Ajv) => void)(ajv);
  const validate = ajv.compile(asRead);

  async function sarif() {
    const log = JSON.parse(await report("sarif", { "latin.misce": Buffer.from("caf\xe9", "latin1") }));
    expect(validate(log), JSON.stringify(validate.errors)).toBe(true);
    return log.runs[0];
  }

  test("holds the published schema's rules, which refuse a wrong log", async () => {
    const run = await sarif();
    expect(validate({ version: "2.1.0", runs: [{ ...run, columnKind: "bytes" }] })).toBe(false);
    expect(run.columnKind).toBe("utf16CodeUnits");
  });

  test("each rule has help, each result its rule", async () => {
    const { tool, results } = await sarif();
    for (const rule of tool.driver.rules) expect(rule.help.text).toContain("Source: ");
    for (const result of results) expect(tool.driver.rules[result.ruleIndex].id).toBe(result.ruleId);
    expect(tool.driver.rules.map((rule: { id: string }) => rule.id)).toEqual(["file-not-utf-8", "test-flaw"]);
  });

  test("silenced findings stay, suppressed in the source with their reason", async () => {
    const { results } = await sarif();
    const suppressed = results.filter((result: { suppressions: unknown[] }) => result.suppressions.length > 0);
    expect(suppressed).toHaveLength(1);
    expect(suppressed[0].suppressions[0]).toMatchObject({
      kind: "inSource",
      justification: "measured, form KQ-118 (by aseptic-lead, until 2027-03-31)",
    });
  });

  test("addresses are relative to the source root and lead back to the file", async () => {
    const { results, artifacts } = await sarif();
    const { artifactLocation } = results.at(-1).locations[0].physicalLocation;
    expect(artifactLocation.uriBaseId).toBe("%SRCROOT%");
    expect(decodeURIComponent(artifactLocation.uri)).toBe(`sub/${hostileName}`);
    expect(artifacts.map((a: { location: { uri: string } }) => a.location.uri)).toContain(artifactLocation.uri);
  });

  test("fixes and related places keep their regions", async () => {
    const { results } = await sarif();
    const result = results.find((r: { level: string }) => r.level === "warning");
    const region = { startLine: 3, startColumn: 3, endLine: 3, endColumn: 19 };
    expect(result.locations[0].physicalLocation.region).toMatchObject({
      ...region,
      snippet: { text: "flaw warning two" },
    });
    expect(result.fixes[0].artifactChanges[0].replacements[0]).toMatchObject({
      deletedRegion: region,
      insertedContent: { text: "" },
    });
    expect(result.relatedLocations[0]).toMatchObject({ id: 1, message: { text: "The file begins here." } });
  });

  test("text with brackets is no link", async () => {
    const { results } = await sarif();
    expect(results.some((r: { message: { text: string } }) => r.message.text.includes("\\[x](1)"))).toBe(true);
  });

  test("fingerprints stay when lines move, and tell equals apart", async () => {
    const prints = async (text: string) => {
      const folder = folderWith({ "site.misce": "site {\n}\n", "a.misce": text });
      const ran = await runIn(folder, ["check", ".", ...asOf, "--format", "sarif"]);
      return JSON.parse(ran.out).runs[0].results.map((r: { partialFingerprints: object }) => r.partialFingerprints);
    };
    const before = await prints("recipe a {\n  flaw error x\n  flaw error x\n}\n");
    expect(await prints("# moved\n\nrecipe a {\n  tap mag\n  flaw error x\n\n  flaw error x\n}\n")).toEqual(before);
    expect(before[0]).not.toEqual(before[1]);
    expect(await prints("recipe b {\n  flaw error x\n}\n")).not.toContainEqual(before[0]);
  });
});

describe("JUnit", () => {
  interface Element {
    name: string;
    attributes: Record<string, string>;
    text: string;
    children: Element[];
  }

  /**
   * What readers of the trade take, as two schemas of Jenkins have it that were read for this test, and what both allow: junit-4.xsd
   * (children in this order) and junit-10.xsd of the xUnit plug-in (required counts; no attribute that it does not name). `!` is required.
   */
  const readable: Record<string, { attributes: string[]; children: string[] }> = {
    testsuites: { attributes: ["name", "time", "tests", "failures", "errors"], children: ["testsuite"] },
    testsuite: {
      attributes: [
        ...["name!", "tests!", "failures!", "errors!"],
        ...["time", "skipped", "timestamp", "hostname", "id", "package"],
      ],
      children: ["properties", "testcase", "system-out", "system-err"],
    },
    properties: { attributes: [], children: ["property"] },
    property: { attributes: ["name!", "value!"], children: [] },
    testcase: {
      attributes: ["name!", "time", "classname"],
      children: ["skipped", "error", "failure", "system-out", "system-err"],
    },
    error: { attributes: ["type", "message"], children: [] },
    failure: { attributes: ["type", "message"], children: [] },
    "system-out": { attributes: [], children: [] },
    "system-err": { attributes: [], children: [] },
  };
  /** Elements that may hold text; in all others only blanks may stand. */
  const withText = new Set(["error", "failure", "system-out", "system-err"]);

  function faults({ name, attributes, children, text }: Element): string[] {
    const rule = readable[name];
    if (!rule) return [`<${name}> is no element of the form`];
    const allowed = rule.attributes.map((a) => a.replace("!", ""));
    const places = children.map((child) => rule.children.indexOf(child.name));
    return [
      ...Object.keys(attributes).flatMap((a) => (allowed.includes(a) ? [] : [`<${name}> has ${a}`])),
      ...rule.attributes.flatMap((a) =>
        a.endsWith("!") && attributes[a.slice(0, -1)] === undefined ? [`<${name}> lacks ${a.slice(0, -1)}`] : [],
      ),
      ...children.flatMap((child, k) => (places[k]! < 0 ? [`<${child.name}> in <${name}>`] : [])),
      ...places.flatMap((place, k) => (k > 0 && place < places[k - 1]! ? [`order within <${name}>`] : [])),
      ...(name === "testcase" && children.filter((c) => c.name === "skipped").length > 1 ? ["skipped twice"] : []),
      ...(name === "properties" && children.length === 0 ? ["<properties> is empty"] : []),
      ...(!withText.has(name) && text.trim() !== "" ? [`text in <${name}>`] : []),
      ...["tests", "failures", "errors"].flatMap((a) =>
        attributes[a] !== undefined && !/^\d+$/.test(attributes[a]) ? [`${a} of <${name}> is no number`] : [],
      ),
      ...children.flatMap(faults),
    ];
  }

  /** Strict parser: throws on anything that is not well-formed. */
  function elements(xml: string): Element[] {
    const sax = require("sax") as { parser(strict: boolean): Record<string, unknown> };
    const parser = sax.parser(true);
    const found: Element[] = [];
    const open: Element[] = [];
    parser.onopentag = (tag: Element) => {
      const element = { name: tag.name, attributes: tag.attributes, text: "", children: [] };
      found.push(element);
      open.at(-1)?.children.push(element);
      open.push(element);
    };
    parser.onclosetag = () => open.pop();
    parser.ontext = (text: string) => {
      if (open.length > 0) open.at(-1)!.text += text;
    };
    parser.onerror = (error: Error) => {
      throw error;
    };
    (parser.write as (text: string) => { close(): void }).call(parser, xml).close();
    return found;
  }

  test("is well-formed XML 1.0 whatever the text holds", async () => {
    const xml = await report("junit");
    // XML 1.0 (fifth edition), production [2] Char.
    expect(xml).not.toMatch(/[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/u);
    const failures = elements(xml).filter((e) => e.name === "failure");
    expect(failures.map((f) => f.attributes.type)).toEqual(["test-flaw", "test-flaw"]);
    expect(failures[0]!.attributes.message).toContain(`]]> </failure><b a="'&amp;"`);
  });

  test("has the elements, attributes and order that readers of it ask for", async () => {
    const whole = await report("junit");
    const [root] = elements(whole);
    expect([root!.name, ...faults(root!)]).toEqual(["testsuites"]);
    for (const [was, is] of [
      ["<testcase classname", "<testcase line"],
      [" failures=", " failed="],
      ["<properties>", "<properties>x"],
      ["<system-out>", "<system-out/><failure/><system-out>"],
    ] as const) {
      expect(faults(elements(whole.replace(was, is))[0]!), is).not.toEqual([]);
    }
  });

  test("a file that was not asked about and could not be read is an error", async () => {
    const folder = folderWith({
      "site.misce": "site {\n}\n",
      "a.misce": "recipe a {\n}\n",
      "b.misce": Buffer.from([0x80]),
    });
    const ran = await runIn(folder, ["check", ...asOf, "a.misce", "--format", "junit"]);
    expect(faults(elements(ran.out)[0]!)).toEqual([]);
    expect(ran.status).toBe(2);
    const found = elements(ran.out);
    expect(found[0]!.attributes.errors).toBe("1");
    expect(found.filter((e) => e.name === "testsuite").map((e) => e.attributes.name)).toContain("b.misce");
    expect(found.find((e) => e.name === "error")!.attributes.message).toContain("not UTF-8");
  });

  test("a case for each file and recipe; lesser and silenced findings are told, not failed", async () => {
    const found = elements(await report("junit"));
    const cases = found.filter((e) => e.name === "testcase").map((e) => [e.attributes.classname, e.attributes.name]);
    expect(cases).toEqual([
      ["site.misce", "file"],
      [`sub/${hostileName}`, "file"],
      [`sub/${hostileName}`, "recipe a"],
    ]);
    expect(found[0]!.attributes).toMatchObject({ tests: "3", failures: "1", errors: "0" });
    const told = found.find((e) => e.name === "system-out")!.text;
    expect(told).toContain("note test-flaw");
    expect(told).toContain("silenced: measured, form KQ-118, by aseptic-lead, until 2027-03-31");
  });
});

test.each(["github", "junit", "gitlab"])("%s: what stands beneath a finding is told with it", async (form) => {
  const folder = folderWith({ "site.misce": "site {\n}\n", "a.misce": "recipe a {\n  flaw error one\n}\n" });
  const { out } = await runIn(folder, ["check", ".", ...asOf, "--format", form]);
  expect(out).toMatch(/Take it out\.(\n|\\n|%0A)The file begins here\. \(a\.misce:1\)/);
});

describe("GitHub", () => {
  test("every line is one whole command or the closing sentence", async () => {
    const lines = (await report("github")).trimEnd().split("\n");
    expect(lines).toHaveLength(4);
    const shape =
      /^::(error|warning|notice) file=([^:,]+),line=\d+,endLine=\d+,col=\d+,endColumn=\d+,title=test-flaw::/;
    for (const line of lines.slice(0, 3)) expect(line).toMatch(shape);
    expect(lines.slice(0, 3).map((line) => shape.exec(line)![1])).toEqual(["error", "warning", "notice"]);
    expect(lines[3]).toMatch(/^misce, as of 2026-11-25: errors 1, warnings 1, notes 1, silenced 1/);
  });

  test("names and messages come back as they were", async () => {
    const line = (await report("github")).split("\n")[0]!;
    const read = (text: string) =>
      text
        .replaceAll("%3A", ":")
        .replaceAll("%2C", ",")
        .replaceAll("%0A", "\n")
        .replaceAll("%0D", "\r")
        .replaceAll("%25", "%");
    expect(read(/file=([^:,]+)/.exec(line)![1]!)).toBe(`sub/${hostileName}`);
    expect(line).toContain("%250A::error::x, a:b ]]>");
  });
});

describe("GitLab", () => {
  test("a list of what GitLab asks for, severities mapped, fingerprints unique", async () => {
    const list = JSON.parse(await report("gitlab"));
    expect(list.map((entry: { severity: string }) => entry.severity)).toEqual(["critical", "major", "info"]);
    for (const entry of list) {
      expect(Object.keys(entry).sort()).toEqual(["check_name", "description", "fingerprint", "location", "severity"]);
      expect(entry.location.path).toBe(`sub/${hostileName}`);
    }
    expect(new Set(list.map((entry: { fingerprint: string }) => entry.fingerprint)).size).toBe(3);
  });
});

describe("text", () => {
  test("one card a finding, then counts, silenced, day and caution", async () => {
    const folder = folderWith({
      "site.misce": "site {\n}\n",
      "a.misce": "recipe a {\n\tflaw warning two\n  quiet flaw\n}\n",
    });
    const ran = await runIn(folder, ["check", ".", ...asOf]);
    expect(ran.out).toBe(`warning  Found "flaw warning two". Take it out.
at       a.misce:2:2, recipe a
       2 |     flaw warning two
         |     ^^^^^^^^^^^^^^^^
see      The file begins here. (a.misce:1:1)
       1 | recipe a {
         | ^^^^
why      Tests need something to find.
mend     Take the line out
check    test-flaw

2 files checked as of 2026-11-25: 1 warning.
1 finding silenced by a deviation, not shown.
Misce supports and does not replace the pharmacist's check, local procedures and licensed practice.
`);
  });

  test("no control character reaches the terminal", async () => {
    expect(await report("text")).not.toMatch(/[^\P{Cc}\n]|\u202e/u);
  });

  test.each([
    ["a terminal", {}, true, [], true],
    ["a pipe", {}, false, [], false],
    ["NO_COLOR", { NO_COLOR: "1" }, true, [], false],
    ["NO_COLOR empty", { NO_COLOR: "" }, true, [], true],
    ["dumb terminal", { TERM: "dumb" }, true, [], false],
    ["--colour over NO_COLOR", { NO_COLOR: "1" }, false, ["--colour"], true],
    ["--color", {}, false, ["--color"], true],
    ["--no-colour", {}, true, ["--no-colour"], false],
    ["--no-color", {}, true, ["--no-color"], false],
  ])("colour: %s", async (_, env, terminal, flags, coloured) => {
    const folder = folderWith({ "a.misce": "flaw error x\n" });
    const ran = await runIn(folder, ["check", "a.misce", ...asOf, ...flags], {
      env: env as Record<string, string>,
      terminal,
    });
    expect(ran.out.includes("\u001b[")).toBe(coloured);
  });
});
