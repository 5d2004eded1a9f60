/** A name is renamed at every place where it stands: after each rename all is told as before, with the new name in the words. */
import { expect, test } from "vitest";
import { type Occurrence, occurrencesIn } from "../../language/answers/occurrences.ts";
import { renamed } from "../../language/answers/rename.ts";
import { example, standardAnd } from "../../language/checks/example.ts";
import type { Library } from "../../language/library.ts";
import { faultyFolders, findingsOver, opened, share, textsOf } from "./samples.ts";

/** Behind every name; no word of any finding. */
const suffix = "-kq";

/** The names that a library declares, and those of each recipe's materials. */
function declaredIn(library: Library): Occurrence[] {
  return library
    .files()
    .flatMap((file) => library.chunks(file))
    .flatMap(({ reading }) => reading.declarations.flatMap((d) => occurrencesIn(d).filter((o) => o.declares)));
}

/** Renames one name in the library. @returns why not, where it cannot be. */
function rename(library: Library, occurrence: Occurrence): string | undefined {
  const answer = renamed(library, occurrence, occurrence.name + suffix);
  if ("refused" in answer) return answer.refused;
  const spans = answer.places.map((place) => library.spanOf(place)!);
  for (const file of new Set(spans.map((span) => span.file))) {
    const here = spans.filter((span) => span.file === file).sort((a, b) => b.end - a.end);
    library.change(
      file,
      here.reduce((text, { end }) => text.slice(0, end) + suffix + text.slice(end), library.text(file)!),
    );
  }
  return undefined;
}

const told = (library: Library) =>
  findingsOver(library)
    .map(({ name, severity, message, related }) =>
      [name, severity, message, ...related.map((r) => r.message)]
        .join("\n")
        .replaceAll(suffix, "")
        // Which names are near to a wrong one is a question of their letters.
        .replace(/ Did you mean [^?]*\?/g, ""),
    )
    .sort();

/** Renames every name of these kinds, one after the other. @returns how many */
function renameAll(library: Library, isMeant: (occurrence: Occurrence) => boolean): number {
  for (let count = 0; ; count++) {
    const next = declaredIn(library).find((o) => isMeant(o) && !o.name.endsWith(suffix));
    if (!next) return count;
    expect(rename(library, next)).toBeUndefined();
  }
}

const kinds = ["drug", "fluid", "stock", "reference", "bands", "device", "recipe", "material"] as const;

test.each(["library", "library-containment"])("every name of samples/%s", (folder) => {
  const library = opened(share(textsOf(folder), 1, process.env.MISCE_LONG ? 1 : 6));
  const before = told(library);
  let count = 0;
  for (const kind of kinds) {
    count += renameAll(library, (o) => o.kinds.includes(kind));
    expect({ kind, told: told(library) }).toEqual({ kind, told: before });
  }
  expect(count).toBeGreaterThan(20);
});

/** Of these the finding is about the name itself. */
const aboutNames = new Set(["declared-twice"]);

/** Most of them are made from one text; `npm run test:long` takes all. */
const faulty = faultyFolders().filter((_, i) => process.env.MISCE_LONG || i % 48 === 0);

test("every name of faulty samples", () => {
  for (const folder of faulty) {
    if (aboutNames.has(folder)) continue;
    const library = opened(textsOf(`faulty/${folder}`));
    const before = told(library);
    renameAll(library, () => true);
    expect({ folder, told: told(library) }).toEqual({ folder, told: before });
  }
});

test.each(["concentration  magnesium-sulfate 37.04 mg/mL", "nominal-concentration  magnesium-sulfate 37 mg/mL"])(
  "a drug is renamed in `%s` of a preparation",
  (line) => {
    const stated = "    concentration  37.04 mg/mL";
    const text = example([stated, line.startsWith("con") ? `    ${line}` : `${stated}\n    ${line}`]);
    expect(renamedIn(text, "magnesium-sulfate")).toContain(line.replace("sulfate", `sulfate${suffix}`));
  },
);

test("a drug is renamed where a fluid or a product contains it", () => {
  const text = standardAnd(`drug glucose {
  name        "glucose"
  high-alert  no
  hazard      not-hazardous
  light       not-sensitive
  source      guide "glucose"
}

fluid glucose-5 {
  source      guide "fluids"
  name        "glucose 5 % w/v"
  contains    glucose 50 g/L
  osmolarity  278 mOsm/L
  use         injection
}
`);
  expect(renamedIn(text, "glucose")).toContain(`contains    glucose${suffix} 50 g/L`);
});

function renamedIn(text: string, name: string): string {
  const library = opened(new Map([["a.misce", text]]));
  const before = told(library);
  expect(rename(library, declaredIn(library).find((o) => o.name === name)!)).toBeUndefined();
  expect(told(library)).toEqual(before);
  return library.text("a.misce")!;
}
