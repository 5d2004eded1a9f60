/** Every kind of fact that the language has, wherever it stands, is part of the fingerprint of the recipes that rest on it. */
import { describe, expect, test } from "vitest";
import { evaluateChunk } from "../../language/checks/evaluate.ts";
import { allChecks } from "../../language/checks/registry.ts";
import { fingerprintOf } from "../../language/compare/fingerprint.ts";
import { meaningOf } from "../../language/compare/meaning.ts";
import { restsOn } from "../../language/compare/whole-meaning.ts";
import { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import type { Lookup } from "../../language/model/lookup.ts";
import { factTables } from "../../language/model/read-chunk.ts";
import { libraryOf, sampleTexts } from "./sample-library.ts";

/** A recipe that reaches one declaration of every kind; a block for each table of facts, where a line can be put in. */
const base = `site {
  name  "s"
  #site
}
reference g {
  title  "g"
  #reference
}
drug d {
  source  g
  name  "d"
  #drug
  stable {
    in  f
    #stable
  }
}
fluid f {
  name  "f"
  #fluid
}
bands b {
  source  g
  #bands
}
stock st {
  drug  d
  container  powder-vial
  #stock
  reconstitute {
    with  5 mL of f
    #reconstitute
  }
}
device dv {
  kind  syringe
  #device
}
lots st {
  lot  "x"  expires 2027-01-01
}
recipe r {
  title  "r"
  #recipe
  order {
    drug  d
    dose  1 mg/kg banded by b per bag
    diluent  f
    #order
  }
  materials {
    v  st
    y  dv
    #materials
  }
  steps {
    disinfect v
    #steps
  }
  intermediate i {
    in  y
    #intermediate
  }
  example "e" {
    weight  7 kg
    #example
  }
  preparation bag {
    form  x
    #preparation
  }
  label-text {
    line  "l"
    #label-text
  }
}
`;

/** Two values of every kind of slot. */
const values: { [type: string]: [string, string] } = {
  measure: ["4 mg", "5 mg"],
  strength: ["4 mg/mL", "5 mg/mL"],
  number: ["4", "5"],
  text: ['"four"', '"five"'],
  name: ["four", "five"],
  date: ["2027-04-01", "2027-05-01"],
  bound: ["up to 4 mg", "up to 5 mg"],
  range: ["4 mg to 6 mg", "4 mg to 7 mg"],
  source: ['g "four"', 'g "five"'],
};

/** Forms with every choice made each way and what may be left out put in: `[x]`, `(a | b)`, `<slot:type>`. */
function expanded(form: string): string[] {
  const alternatives = /\(([^()[\]]*)\)/.exec(form);
  if (alternatives) {
    return alternatives[1]!
      .split(/ \| /)
      .flatMap((each) =>
        expanded(form.slice(0, alternatives.index) + each + form.slice(alternatives.index + alternatives[0].length)),
      );
  }
  const option = /\[([^()[\]]*)\]/.exec(form);
  if (option) return expanded(form.slice(0, option.index) + option[1] + form.slice(option.index + option[0].length));
  return [form.replace(/ +/g, " ").trim()];
}

/** Lines of which each differs from the first by one slot. */
function linesOf(word: string, form: string): string[][] {
  return expanded(form).map((whole) => {
    const slots = [...whole.matchAll(/<[a-z]+\??:([^>]+)>/g)];
    const choices = slots.map(
      ([, type]) => values[type!] ?? (type!.split("|").concat(type!).slice(0, 2) as [string, string]),
    );
    const lineWith = (changed: number) => {
      let k = 0;
      return `${word}  ${whole.replace(/<[a-z]+\??:[^>]+>/g, () => choices[k]![k++ === changed ? 1 : 0])}`.trim();
    };
    return [...new Set([lineWith(-1), ...slots.map((_, k) => lineWith(k))])];
  });
}

function library(text: string): Library {
  const made = new Library({ asOf: "2026-11-25" });
  made.open("all.misce", text);
  return made;
}

function recipeOf(made: Library): Recipe {
  return made.declared("r").find((each): each is Recipe => each.kind === "recipe")!;
}

function fingerprint(text: string): string {
  const made = library(text);
  return fingerprintOf(recipeOf(made), made);
}

const withLine = (block: string, line: string) =>
  base.replace(new RegExp(`^( +)#${block}$`, "m"), `$1${line.replaceAll("$", "$$$$")}`);

/** Who approves, and which roles there are, changes no preparation. */
const isLeftOut = (table: string, word: string) => table === "site" && ["approvals", "role"].includes(word);

const tables = Object.entries(factTables).filter(([table]) => table !== "lots" && base.includes(`#${table}\n`));

test("every table of facts has its place in the recipe of this test", () => {
  expect(Object.keys(factTables).filter((table) => !base.includes(`#${table}\n`))).toEqual(["lots"]);
});

describe.each(tables)("facts of %s", (table, facts) => {
  const untouched = fingerprint(base);

  test.each(Object.keys(facts))("%s", (word) => {
    for (const [first, ...others] of linesOf(word, facts[word]!.form.text)) {
      const one = fingerprint(withLine(table, first!));
      if (isLeftOut(table, word)) {
        expect(one).toBe(untouched);
        continue;
      }
      expect(one, `added: ${first}`).not.toBe(untouched);
      for (const other of others) expect(fingerprint(withLine(table, other)), `${first} → ${other}`).not.toBe(one);
      const laidOut = withLine(table, `${first!.replace("  ", "      ")}   # ${word}`).replace(
        /^( +)(?=\S)/gm,
        "   $1",
      );
      expect(fingerprint(laidOut), `laid out: ${first}`).toBe(one);
    }
  });

  test("at least half of these lines are read, so that it is their values that count", () => {
    const lines = Object.keys(facts).flatMap((word) => linesOf(word, facts[word]!.form.text).map(([first]) => first!));
    const read = lines.filter((line) => {
      const declarations = library(withLine(table, line))
        .chunks("all.misce")
        .flatMap((c) => c.reading.declarations);
      const said = declarations.flatMap((d) => meaningOf(d).facts);
      return said.some((f) => f.isRead && f.shown.startsWith(line.replace(/ +/g, " ")));
    });
    expect(read.length * 2).toBeGreaterThanOrEqual(lines.length);
  });
});

test("a material's item, number and condition; lots and another recipe do not count", () => {
  const lines = ["z  dv", "z  2 x dv", "z  dv  when dose up to 1 g", "z  dv  when dose up to 2 g", "z  st"];
  const all = [fingerprint(base), ...lines.map((line) => fingerprint(withLine("materials", line)))];
  expect(new Set(all).size).toBe(lines.length + 1);
  expect(fingerprint(base.replace("2027-01-01", "2028-01-01"))).toBe(all[0]);
  expect(fingerprint(`${base}recipe other {\n  title  "o"\n}\n`)).toBe(all[0]);
});

/**
 * What a check looks up and no fingerprint rests on is a fact that may change a verdict and leave an approval standing. Three are known,
 * none of which changes what is made: the names of all fluids, by which a printed text is read (another fluid named than the recipe's, a
 * percentage that is a fluid's); the names of drugs, by which a title says which of two formulations it means; and devices that a finding
 * names as its remedy.
 */
test("whatever a check looks up for a recipe is what its fingerprint rests on", { timeout: 300_000 }, () => {
  const blind = new Set<string>();
  const look = (made: Library, where: string) => {
    for (const recipe of made.ofKind("recipe") as readonly Recipe[]) {
      const rests = new Set<unknown>(restsOn(recipe, made).map((each) => each.declaration));
      const { lookup, policy, asOf } = made.surroundings();
      const noting: Lookup = {
        ...lookup,
        site: () => lookup.site(),
        any: (name) => lookup.any(name),
        second: (name, kind) => lookup.second(name, kind),
        namesTwice: () => lookup.namesTwice(),
        lots: (stock) => lookup.lots(stock),
        names: (kind) => lookup.names(kind),
        find(kind, name) {
          const found = lookup.find(kind, name);
          if (found && !rests.has(found) && (found as unknown) !== recipe) blind.add(`${found.kind} in ${where}`);
          return found;
        },
      };
      const [own] = made
        .chunks(made.spanOf({ chunk: recipe.chunk, start: 0, end: 0 })!.file)
        .filter((c) => c === recipe.chunk);
      evaluateChunk(own!, { ...own!.reading, declarations: [recipe] }, { lookup: noting, policy, asOf });
    }
  };
  look(libraryOf(sampleTexts()), "the samples");
  for (const { name, bad } of allChecks) look(library(bad), `the bad example of ${name}`);
  expect([...blind].sort()).toEqual([
    "device in the bad example of draw-beyond-syringe",
    "device in the bad example of too-small-to-measure",
    "drug in the bad example of formulation-not-in-title",
    "fluid in the samples",
  ]);
});
