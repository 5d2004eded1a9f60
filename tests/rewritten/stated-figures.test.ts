/** A figure that the editor offers to state is one that is then accepted; what a person rounds is accepted to four figures. */
import { expect, test } from "vitest";
import { hintsOf } from "../../language/answers/hints.ts";
import { refactoringsAt } from "../../language/answers/refactorings.ts";
import { example } from "../../language/checks/example.ts";
import type { Library } from "../../language/library.ts";
import { faultyFolders, opened, share, textsOf } from "./samples.ts";

/** The file with every figure stated that can be. @returns how many */
function stateAll(library: Library, file: string): number {
  const edits = library
    .chunks(file)
    .flatMap(({ base, reading }) =>
      reading.declarations.flatMap((d) =>
        d.kind === "recipe" ? (hintsOf(library, d) ?? []).map((h) => ({ at: base + h.at, text: h.states })) : [],
      ),
    )
    .filter(({ text }) => text !== undefined)
    .sort((a, b) => b.at - a.at);
  library.change(
    file,
    edits.reduce((text, { at, text: figure }) => text.slice(0, at) + figure + text.slice(at), library.text(file)!),
  );
  return edits.length;
}

const told = (library: Library, file: string) => library.findings(file).map((f) => [f.name, f.severity, f.message]);

test.each(["library", "library-containment"])("all figures of samples/%s stated", (folder) => {
  const library = opened(share(textsOf(folder), 0, process.env.MISCE_LONG ? 1 : 6));
  let count = 0;
  for (const file of library.files()) {
    const before = told(library, file);
    count += stateAll(library, file);
    expect({ file, told: told(library, file) }).toEqual({ file, told: before });
  }
  expect(count).toBeGreaterThan(0);
});

const faulty = faultyFolders().filter((_, i) => process.env.MISCE_LONG || i % 48 === 5);

test("all figures of faulty samples stated: nothing more is found", () => {
  for (const folder of ["range-end-between-steps", ...faulty]) {
    const library = opened(textsOf(`faulty/${folder}`));
    for (const file of library.files()) {
      const before = told(library, file);
      stateAll(library, file);
      expect({ file, told: told(library, file) }).toEqual({ file, told: before });
    }
  }
});

/** All of an ampoule of 4.92857 mL, with this figure beside it. The other figures follow from it. */
function drawnWith(figure: string): Library {
  return opened(
    new Map([
      [
        "a.misce",
        example(
          ["  fill       10 mL", "  fill       4.92857 mL"],
          ["draw 4 g from mag into syringe  = 8 mL", `draw all from mag into syringe${figure}`],
        ),
      ],
    ]),
  );
}

test("a long figure is offered with four figures, and accepted", () => {
  const library = drawnWith("");
  const text = library.text("a.misce")!;
  const at = text.indexOf("draw all");
  const offered = refactoringsAt(library, "a.misce", at, at).find(({ title }) => title.startsWith("State the"))!;
  expect(offered.title).toBe("State the figure = 4.929 mL");
  const [{ start, text: figure } = { start: 0, text: "" }] = offered.edits;
  const before = told(library, "a.misce");
  library.change("a.misce", text.slice(0, start) + figure + text.slice(start));
  expect(told(library, "a.misce")).toEqual(before);
});

// Half up to the digits written, never to fewer than four figures.
test.each([
  ["4.92857 mL", true],
  ["4.9286 mL", true],
  ["4.929 mL", true],
  ["4.928 mL", false],
  ["4.93 mL", false],
  ["4.9 mL", false],
  ["5 mL", false],
])("%s beside 4.92857 mL", (figure, isAccepted) => {
  const found = drawnWith(`  = ${figure}`).findings("a.misce");
  expect(found.some((f) => f.name === "claim-differs")).toBe(!isAccepted);
});

/** Ordered by weight, drawn as ordered. */
function byWeight(...order: string[]): Library {
  const lines = order.map((line) => `    ${line}\n`).join("");
  const text = example(
    ["    dose            4 g per bag\n", lines],
    ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe"],
    ["    concentration  37.04 mg/mL\n", ""],
    ["magnesium-4g {", "magnesium-by-weight {"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate in"],
  );
  return opened(new Map([["a.misce", text]]));
}

function offeredFor(library: Library): string[] {
  const at = library.text("a.misce")!.indexOf("draw dose");
  return refactoringsAt(library, "a.misce", at, at).map(({ title }) => title);
}

test("of a range the figure is for the weights that are ordered, not for an end between two steps", () => {
  const library = byWeight("weight  50 kg to 62 kg in steps of 10 kg", "dose    50 mg/kg per bag");
  // 50 mg/kg × 50 kg and × 60 kg, of 500 mg/mL
  expect(offeredFor(library)).toContain("State the figure = 5 mL to 6 mL");
  stateAll(library, "a.misce");
  expect(told(library, "a.misce").map(([name]) => name)).not.toContain("claim-differs");
});

test("of a range the most may be met between its ends", () => {
  const library = byWeight("weight  40 kg to 69 kg in steps of 1 kg", "dose    50 mg/kg banded by odd per bag");
  library.open(
    "bands.misce",
    "bands odd {\n  from  2 g below 2.5 g gives 2 g\n  from  2.5 g below 3 g gives 4 g\n  from  3 g below 3.5 g gives 3 g\n}\n",
  );
  expect(offeredFor(library)).toContain("State the figure = 4 mL to 8 mL");
});

test("two decimals of a range are rounded as a single figure is", () => {
  // 37.1234 mg/kg of 500 mg/mL: 2.969872 mL for 40 kg, 3.1182… mL for 42 kg
  const library = byWeight("weight  40 kg to 42 kg in steps of 1 kg", "dose    37.1234 mg/kg per bag");
  stateAll(library, "a.misce");
  expect(told(library, "a.misce").map(([name]) => name)).not.toContain("claim-differs");
});
