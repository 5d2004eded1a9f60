/**
 * Every sample recipe as FHIR R4 (HL7 FHIR release 4.0.1, resource pages Bundle, Medication, MedicationRequest): references
 * resolve, a Ratio has both parts, nothing looks like an order in force.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { Library } from "../../language/library.ts";
import { exportsOf } from "./export-all.ts";

const root = join(import.meta.dirname, "../../samples/library");
const library = new Library({ asOf: "2026-11-25" });
for (const file of readdirSync(root, { recursive: true }) as string[]) {
  if (file.endsWith(".misce")) library.open(file, readFileSync(join(root, file), "utf8"));
}

/** Every object of a tree, itself included. */
function* objects(value: unknown): Iterable<Record<string, unknown>> {
  if (Array.isArray(value)) for (const each of value) yield* objects(each);
  else if (value && typeof value === "object") {
    yield value as Record<string, unknown>;
    for (const each of Object.values(value)) yield* objects(each);
  }
}

describe.each(exportsOf(library))("the export of $name", ({ exported }) => {
  const { bundle } = exported;
  const all = [...objects(JSON.parse(JSON.stringify(bundle)))];
  const types = (bundle.entry ?? []).map((e) => e.resource?.resourceType);

  it("is a collection with the order's shape and the preparation", () => {
    expect(bundle.resourceType).toBe("Bundle");
    expect(bundle.type).toBe("collection");
    expect(types).toContain("MedicationRequest");
    expect(types).toContain("Medication");
  });

  it("has references that resolve within it", () => {
    const urls = (bundle.entry ?? []).map((e) => e.fullUrl);
    expect(new Set(urls).size).toBe(urls.length);
    for (const { reference } of all) if (typeof reference === "string") expect(urls).toContain(reference);
  });

  it("has no ratio with one part only, and no quantity without a figure", () => {
    for (const each of all) {
      expect("numerator" in each).toBe("denominator" in each);
      if (each.system === "http://unitsofmeasure.org") expect(typeof each.code).toBe("string");
    }
  });

  it("is a draft proposal, never an order in force", () => {
    for (const { resource } of bundle.entry ?? []) {
      if (resource?.resourceType !== "MedicationRequest") continue;
      expect(resource.status).toBe("draft");
      expect(resource.intent).toBe("proposal");
    }
    expect(JSON.stringify(bundle)).toContain("does not replace the pharmacist's check");
  });
});
