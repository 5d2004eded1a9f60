/** The label: every element of the published lists, and a bar code that an independent decoder reads back as the text beside it. */
import { describe, expect, it } from "vitest";
import { codeSvg } from "../../client/cli/sheet-code.ts";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import { readElementString } from "../../language/model/gs1.ts";
import { codeFault } from "../../language/sheet/gs1-element-string.ts";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";
import { sheetOf } from "../../language/sheet/sheet-data.ts";
import elements from "../reference/practice/record-elements.json";
import { readCode } from "./read-code.ts";
import { libraryOf, requestFor, sheetFrom, textsOf } from "./sample-sheets.ts";

const library = libraryOf(textsOf("library"));
const hazardous = libraryOf(textsOf("library-containment"));

/** Elements that no recipe can state, each with the reason. */
const absent: Record<string, string> = {
  "my-label-09": "date of dispensing: known when the preparation is handed out, not when it is made",
};

describe("the elements of the published lists (practice/record-elements.json)", () => {
  const sheets = [
    sheetFrom(library, "magnesium-4g"),
    sheetFrom(library, "nitroprusside-50mg"),
    sheetFrom(hazardous, "cyclophosphamide-1g"),
  ];
  const answered = new Set(sheets.flatMap((s) => s.labels.flatMap((l) => l.lines.flatMap((line) => line.rows))));
  const rows = elements.rows.filter((r) => r.record === "label").map((r) => r.id);

  it.each(rows)("%s stands on a label, or it is said why not", (id) => {
    expect(answered.has(id) !== id in absent).toBe(true);
  });

  it("names no element that the lists do not have", () => {
    expect([...answered, ...Object.keys(absent)].filter((id) => !rows.includes(id))).toEqual([]);
  });
});

const lines = (recipe: string, from = library, more = {}) =>
  sheetFrom(from, recipe, more).labels[0]!.lines.map((l) => `${l.label}: ${l.value.text}`);

describe("what a label says", () => {
  // Common practice: 10 mg in a bag are a hundred boluses of 100 mcg, not one.
  it("does not call a bag for boluses a single dose", () => {
    expect(lines("phenylephrine-10mg-100mL")).toContain("Doses: By bolus, as much as is prescribed");
    expect(lines("ceftriaxone-300mg-syringe")).toContain("Doses: Single dose");
  });

  // Common practice: a pump runs such a container by the effect, and nobody must take the whole of it for one dose.
  it("does not call a container single dose that is titrated or runs at a rate without an end", () => {
    expect(lines("vasopressin-100-units")).toContain("Doses: One patient, titrated as prescribed");
    expect(lines("epidural-levobupivacaine-fentanyl")).toContain("Doses: One patient, at the rate prescribed");
  });

  // The way of the published lists of safe names (ISMP, from memory): units in words, and of one millilitre there is 1 unit/mL.
  it("says 1 unit/mL, and more units/mL", () => {
    expect(lines("vasopressin-100-units")).toContain("vasopressin: 100 units (1 unit/mL)");
    expect(lines("vasopressin-50-units")).toContain("vasopressin: 50 units (0.0995 units/mL)");
  });

  // 500 mcg of digoxin in 10 mL (2 mL of 250 mcg/mL made up), worked out by hand.
  it("tells what is written by hand on a syringe that is labelled on the way", () => {
    const steps = sheetFrom(library, "digoxin-40mcg").steps.filter((s) => s.sentence.text.startsWith("Label "));
    expect(steps.map((s) => s.detail.map((d) => d.text))).toEqual([
      [
        "Write on working: digoxin 50 mcg/mL in sodium chloride 0.9 % w/v; 10 mL; date and time; initials; NOT TO BE GIVEN.",
      ],
      [],
    ]);
  });

  it("gives content, base, volume, route, rate and end of a bag", () => {
    expect(lines("magnesium-4g", library, { number: "KQ-0417" })).toEqual([
      "Patient: ",
      "Order number: KQ-0417",
      ": Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL",
      "magnesium sulfate heptahydrate: 4 g (37.04 mg/mL)", // 4 g in 100 mL and 8 mL, to four figures
      "In: sodium chloride 0.9 % w/v",
      "Volume: 108 mL",
      "Form: solution for infusion",
      ": HIGH-ALERT: magnesium sulfate heptahydrate",
      "Route: intravenous, peripheral vein",
      "Give over: 4 h",
      "Rate: 27 mL/h", // 108 mL in 4 h
      "Doses: Single dose",
      "Use before: 2026-11-26 09:30 at room temperature; giving finished by then",
      "Prepared: 2026-11-25 09:30",
      "Prepared by: ",
      "Checked by: ",
      ": Kestrel Quay Infirmary",
    ]);
  });

  it("warns of light and of hazard", () => {
    expect(lines("nitroprusside-50mg")).toContain(": Protect from light: sodium nitroprusside.");
    expect(lines("cyclophosphamide-1g", hazardous).join("\n")).toMatch(/HAZARDOUS DRUG: cyclophosphamide/);
  });

  it("says what of the volume stands in a line that was filled, and whether it counts", () => {
    const capacity = "  capacity   150 mL\n";
    const said = (counts: string) => {
      const text = example(
        [capacity, `${capacity}  priming-volume  2 mL  source guide "bags"\n`],
        ["    diluent-volume  100 mL\n", `    diluent-volume  100 mL\n    final-volume    108 mL line ${counts}\n`],
        ["    tap mag\n", "    prime line of bag\n    tap mag\n"],
      );
      const pump = new Library({ asOf: "2026-11-25" });
      pump.open("a.misce", text);
      return lines("magnesium-4g", pump).filter((l) => l.startsWith("Volume"));
    };
    // 100 mL and 8 mL; the line takes 2 mL out of the bag, and is part of its content or not.
    expect(said("included")).toEqual(["Volume: 108 mL (2 mL of it in the line)"]);
    expect(said("excluded")).toEqual(["Volume: 106 mL (and 2 mL in the line)"]);
  });

  it("prints no name by which only recipes call a drug or a fluid", () => {
    const { lookup } = library.surroundings();
    const words = [...lookup.names("drug"), ...lookup.names("fluid")].filter((name) => name.includes("-"));
    expect(words.length).toBeGreaterThan(8);
    const printed = library.ofKind("recipe").flatMap(({ name }) => {
      const sheet = sheetOf(library, requestFor(name.name));
      return isSheetRefusal(sheet)
        ? []
        : sheet.labels[0]!.lines.flatMap((l) => [l.label, l.value.text]).map((text) => [name.name, text] as const);
    });
    expect(printed.length).toBeGreaterThan(700);
    expect(printed.filter(([, text]) => words.some((word) => text.includes(word)))).toEqual([]);
  });

  it("counts the containers of a batch and names its number, not a patient", () => {
    const { labels } = sheetFrom(library, "magnesium-2g-batch", { batch: true, number: "B-77", bags: "8" });
    expect(labels).toHaveLength(8);
    const words = labels[4]!.lines.map((l) => `${l.label}: ${l.value.text}`);
    expect(words.slice(0, 2)).toEqual(["Batch: B-77", "Container: 5 of 8, run 2 of 2"]);
  });
});

const separator = "\u001d";

/** Scanners may put the sign of the code, or a separator, in front. */
function withoutFront(code: string): string {
  return code.startsWith("]d2") ? code.slice(3) : code.startsWith(separator) ? code.slice(1) : code;
}

/** As a scanner gives it: no brackets, a separator after each element of open length but the last. */
function scanned(text: string): string {
  return text
    .split(/(?=\(\d+\))/)
    .map((part) => part.replace(/[()]/g, ""))
    .map((part) => (part.startsWith("01") ? part : part + separator)) // AI 01 has a fixed length and takes no separator
    .join("")
    .slice(0, -1);
}

describe("the bar code", () => {
  it.each([
    ["internal", {}, "(91)magnesium-4g(93)2611260930"],
    ["internal with number", { number: "KQ-0417" }, "(91)magnesium-4g(93)2611260930(92)KQ-0417"],
    [
      "with a trade number",
      { number: "KQ-0417", gtin: "9501101530003" },
      "(01)09501101530003(7003)2611260930(10)KQ-0417",
    ],
  ] as const)("%s reads back as its text", (_, more, text) => {
    const { barcode } = sheetFrom(library, "magnesium-4g", more).labels[0]!;
    expect(barcode?.text.text).toBe(text);
    expect(withoutFront(readCode(codeSvg(text)))).toBe(scanned(text));
  });

  it("with a trade number is understood by the reader of pack codes", () => {
    const { barcode } = sheetFrom(library, "magnesium-4g", { number: "KQ-0417", gtin: "9501101530003" }).labels[0]!;
    const code = withoutFront(readCode(codeSvg(barcode!.text.text)));
    const reading = readElementString(`]d2${code}`, { currentYear: 2026 });
    expect(JSON.stringify(reading)).toContain("KQ-0417");
    expect(JSON.stringify(reading)).toContain('"day":26');
  });

  it("tells each container of a batch from the next", () => {
    const { labels } = sheetFrom(library, "magnesium-2g-batch", { number: "B-77" });
    const codes = labels.map((l) => readCode(codeSvg(l.barcode!.text.text)));
    expect(new Set(codes).size).toBe(4);
  });

  it("may not carry batch or expiry without a trade number (GS1: mandatory association of elements)", () => {
    expect(() => codeSvg("(10)KQ-0417(7003)2611260930")).toThrow(/missing/i);
  });

  it("is left out where the preparation is not for use", () => {
    const faulty = new Library({ asOf: "2026-11-25" });
    faulty.open("library.misce", example(["= 8 mL", "= 0.8 mL"]));
    const [label] = sheetFrom(faulty, "magnesium-4g").labels;
    expect(label?.notForUse).toBe(true);
    expect(label?.barcode).toBeUndefined();
  });

  it("refuses signs outside GS1 character set 82", () => {
    expect(codeFault("KQ-0417/a_b.c", 20)).toBeUndefined();
    for (const text of ["a b", "é", "µ", "a#b", "a@b", "a\u001db"]) expect(codeFault(text, 20)).toBeDefined();
  });
});
