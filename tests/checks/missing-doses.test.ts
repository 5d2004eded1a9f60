/**
 * An additive that no step takes, and a fluid that nobody declares: one slip is two findings at most, and a second fault beside it is
 * told all the same.
 */
import { describe, expect, it, test } from "vitest";
import { Library } from "../../language/library.ts";
import { openSamples } from "./planted-slips.ts";

const samples = openSamples("library");
const sample = (name: string) => samples.find(({ file }) => file.endsWith(`/${name}.misce`))!;

/** Names and messages of what stands out in a recipe that reads so. */
function told({ library, file, text }: (typeof samples)[number], changed: string): string[] {
  library.change(file, changed);
  const found = library.findings(file).filter((f) => !f.silenced && f.severity !== "note");
  library.change(file, text);
  return found.map((f) => `${f.name}: ${f.message}`);
}
const names = (found: readonly string[]) => found.map((each) => each.split(":")[0]);

/** Without every step that touches these, and without their names where a step lists several. */
function without(text: string, things: readonly string[]): string {
  const any = things.join("|");
  const from = text.indexOf("  steps {");
  const steps = text
    .slice(from)
    .replace(new RegExp(`, (?:${any})\\b|\\b(?:${any}), `, "g"), "")
    .split("\n")
    .filter((line) => !new RegExp(`\\b(?:${any})\\b`).test(line));
  return text.slice(0, from) + steps.join("\n");
}

describe("an additive left out of the steps", () => {
  const additives = samples.flatMap((each) => {
    if ([...each.text.matchAll(/^ {4}additive /gm)].length < 2) return [];
    const steps = each.text.slice(each.text.indexOf("  steps {"));
    return [...steps.matchAll(/^ {4}draw .* from (\S+) into (\S+)/gm)].map(([, from, into]) => ({
      each,
      things: [from!, into!],
    }));
  });

  it("there are some", () => expect(additives.length).toBeGreaterThan(5));

  it.each(additives.map(({ each, things }) => [each.file.split("/").at(-1)!, things[0]!, each, things] as const))(
    "%s without %s is told once or twice",
    (_, __, each, things) => {
      const found = told(each, without(each.text, things));
      expect(names(found)).toContain("dose-not-delivered");
      expect(found.length).toBeLessThanOrEqual(2);
      const { text } = each;
      for (const verb of ["draw .* into", "inject"]) {
        const one = told(each, text.replace(new RegExp(`^ {4}${verb} ${things[1]}\\b.*\\n`, "m"), ""));
        expect(one.length, verb).toBeLessThanOrEqual(2);
      }
    },
  );

  const epidural = sample("epidural-levobupivacaine-fentanyl");
  const left = (text: string) => without(text, ["fen", "syringe-2"]);

  it("what is not used stands beneath the dose that is missing", () => {
    const { library, file, text } = epidural;
    library.change(file, left(text));
    const [first] = library.findings(file).filter((f) => f.name === "dose-not-delivered");
    library.change(file, text);
    expect(first!.related.map(({ message }) => message).join("\n")).toMatch(/`fen` stands[\s\S]*`syringe-2` stands/);
  });

  it("a withdrawal that is wrong with the missing volume too is told", () => {
    const claimed = epidural.text.match(/^ {4}withdraw added-volume .*= (\d+) mL/m)!;
    const other = left(epidural.text).replace(claimed[0], claimed[0].replace(`= ${claimed[1]} mL`, "= 75 mL"));
    expect(names(told(epidural, other))).toContain("claim-differs");
  });

  it("a strength of what is there that is wrong with the missing volume too is told", () => {
    const each = sample("potassium-magnesium");
    const stated = /^( {4}concentration +magnesium-sulfate )\S+ mg\/mL/m;
    expect(each.text).toMatch(stated);
    const other = without(each.text, ["pot", "syringe-1"]).replace(stated, "$12.4 mg/mL");
    expect(names(told(each, other))).toContain("concentration-differs");
  });

  it("a product of another drug that nothing uses is told by itself", () => {
    const other = left(epidural.text).replace(/^( {4}fen +)(\S+)\n/m, "$1$2\n    odd     potassium-vial-10\n");
    expect(told(epidural, other).join("\n")).toContain("potassium-vial-10 holds potassium-chloride");
    const bag = left(epidural.text).replace(/^( {4}fen +)(\S+)\n/m, "$1$2\n    odd     saline-bag-100\n");
    expect(told(epidural, bag).join("\n")).toContain("`odd` stands in materials");
  });
});

describe("a fluid that the library does not declare", () => {
  const recipe = sample("vancomycin-1.5g");
  const stock = "library/stock/fluids.misce";
  const { library } = recipe;

  /** The bag of this recipe is filled with what nobody declares. */
  function undeclared(change: (text: string) => string = (text) => text): string[] {
    const text = library.text(stock)!;
    const bag = /^ {4}(?:bag|sack) +(\S+)/m.exec(recipe.text)![1]!;
    const named = new RegExp(`(stock ${bag} \\{\\n[^}]*?fluid +)sodium-chloride-0.9`);
    expect(text).toMatch(named);
    library.change(stock, text.replace(named, "$1ringers-solution"));
    const found = told(recipe, change(recipe.text));
    library.change(stock, text);
    return found;
  }

  it("is told at the recipe once, and not as water", () => {
    const found = undeclared();
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/^unknown-name: stock \S+ holds `ringers-solution`, which the library does not declare/);
  });

  it("a limit of use that no study covers in any fluid is told all the same", () => {
    const found = undeclared((text) => text.replace(/(use-within +)\S+ \S+ at refrigerator/, "$13 days at freezer"));
    expect(names(found)).toContain("stability-not-covered");
  });

  it("a bag of water is told where the unknown fluid is a small part of it", () => {
    const own = openLibrary({ bag: "water", vial: "ringers-solution" });
    expect(own).toContain("water-as-bulk");
    expect(openLibrary({ bag: "ringers-solution", vial: "water" })).not.toContain("water-as-bulk");
  });
});

/** Findings of a bag of 100 mL into which 10 mL of another fluid are drawn with the drug. */
function openLibrary({ bag, vial }: { bag: string; vial: string }): string[] {
  const text = `site {
  name "Kestrel Quay Infirmary"
  cabinet none
}
drug remedy {
  name "remedy"
}
fluid water {
  name "water for injections"
  osmolarity 0 mOsm/L
  never-alone yes
}
stock ampoule {
  drug remedy
  container vial
  strength 1 mg/mL
  osmolarity 0 mOsm/L
  fill 1 mL
}
stock bag-100 {
  fluid ${bag}
  container bag
  fill 100 mL
  capacity 200 mL
}
stock vial-10 {
  fluid ${vial}
  container vial
  fill 10 mL
}
recipe mixed {
  title "Remedy 1 mg"
  order {
    drug remedy
    dose 1 mg per bag
    route intravenous
    use infusion
  }
  materials {
    amp ampoule
    more vial-10
    bag bag-100
    syringe syringe-20mL
  }
  steps {
    add 10 mL from more to bag using syringe
    add 1 mL from amp to bag using syringe
  }
  preparation bag {
    form solution-for-infusion
  }
}
`;
  const library = new Library({ asOf: "2026-11-25" });
  library.open("own.misce", text);
  return library.findings("own.misce").map((f) => f.name);
}

test("one name that is not there is one finding of a declaration, mended at every line", () => {
  const { library } = samples[0]!;
  const file = library.files().find((name) => library.text(name)?.includes("fluid sodium-chloride-0.9 {"))!;
  const text = library.text(file)!;
  library.change(file, text.replace("fluid sodium-chloride-0.9 {", "fluid sodium-chlorid-0.9 {"));
  const drug = library.files().find((name) => /^drug vancomycin \{/m.test(library.text(name) ?? ""))!;
  const found = library
    .findings(drug)
    .filter((f) => f.name === "unknown-name" && f.message.includes("sodium-chloride-0.9"));
  const uses = library
    .text(drug)!
    .split("\n}\n")
    .filter((part) => / sodium-chloride-0\.9(?: |$)/m.test(part)).length;
  expect(found.length).toBeGreaterThan(0);
  expect(found.length).toBeLessThanOrEqual(uses);
  library.change(file, text);
});
