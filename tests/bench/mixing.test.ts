/** What mixes, and until when: one list for `swirl`, `shake` and `mix`; what fits no nature, and what is written otherwise, is told. */
import { describe, expect, it, test } from "vitest";
import { verbsByWord } from "../../language/bench/verbs/index.ts";
import { mixingEnds } from "../../language/bench/verbs/mixing.ts";
import { Library } from "../../language/library.ts";
import { readPages } from "../spec/pages.ts";

const { given, text } = readPages()
  .flatMap(({ cases }) => cases)
  .find((each) => each.title.includes("powder into a bag") && each.text.includes("swirl vial until dissolved"))!;
const nature = "  mixing         not-shaken\n";

/** Findings with this step in the place of `swirl vial until dissolved`. */
function told(step: string, of = nature): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  const files = {
    "given.misce": given.replace(nature, () => of),
    "case.misce": text.replace("swirl vial until dissolved", () => step),
  };
  for (const [file, content] of Object.entries(files)) library.open(file, content);
  return Object.keys(files).flatMap((file) => library.findings(file).map((f) => `${f.name}: ${f.message}`));
}
const names = (found: readonly string[]) => found.map((each) => each.split(":")[0]);

test("each verb that is done until an end knows the same ends", () => {
  for (const word of ["swirl", "shake", "mix"])
    for (const { form } of verbsByWord.get(word)!)
      expect(form.text).toMatch(new RegExp(`until <end\\??:${mixingEnds.replaceAll("|", "\\|")}>`));
});

describe("a powder that dissolves", () => {
  it.each([
    "swirl vial until clear",
    "swirl vial until dissolved up to 5 min",
    "mix vial by rolling until dissolved",
    "mix vial by inverting until clear up to 2 min",
    "dissolve vial",
  ])("is ready after `%s`", (step) => expect(told(step)).toEqual([]));

  it.each(["swirl vial until suspended", "shake vial until suspended", "mix vial by rolling until suspended"])(
    "never is by `%s`",
    (step) => expect(names(told(step))).toContain("swirled-to-other-end"),
  );

  it("is not by being turned over without an end in view", () => {
    expect(names(told("mix vial by inverting 10 times"))).toEqual(["drawn-before-dissolved"]);
  });

  it("is told where it is shaken and must not be, and only then", () => {
    for (const step of ["shake vial until dissolved", "mix vial by shaking until dissolved"]) {
      expect(names(told(step))).toEqual(["shaken"]);
      expect(names(told(step, "  mixing         any\n"))).toEqual([]);
    }
  });

  it("is not told as drawn undissolved behind a step that cannot be read and may mix", () => {
    for (const step of ["roll vial until dissolved", "invert vial 10 times", "shake vial well", "swirl vial"])
      expect(told(step)).toHaveLength(1);
  });
});

test.each([
  ["suspension", "dissolved", "Write `until suspended`"],
  ["suspension", "clear", "Write `until suspended`"],
  ["suspension", "suspended", undefined],
  ["emulsion", "clear", "Say how often it is mixed instead"],
  ["emulsion", "dissolved", undefined],
  ["emulsion", "suspended", "Write `until dissolved`"],
  ["lipid-complex", "clear", "Write `until suspended`"],
  ["lipid-complex", "suspended", undefined],
  ["lipid-complex", "dissolved", undefined],
  ["protein", "clear", undefined],
  ["solution", "suspended", "Write `until dissolved`"],
])("%s until %s", (kind, end, remedy) => {
  const found = told(`swirl vial until ${end}`, `${nature}  nature         ${kind}\n`).filter((each) =>
    each.startsWith("swirled-to-other-end"),
  );
  expect(found).toHaveLength(remedy === undefined ? 0 : 1);
  if (remedy !== undefined) expect(found[0]).toContain(remedy);
});

test("several drugs in one bag are brought up together where one of them is a suspension", () => {
  const library = new Library({ asOf: "2026-11-25" });
  const mixed = text
    .replace("swirl vial until dissolved", "swirl vial until suspended")
    .replace(/mix (\S+) by inverting 10 times/, "mix $1 by inverting until suspended");
  library.open("given.misce", given.replace(nature, `${nature}  nature         suspension\n`));
  library.open("case.misce", mixed);
  expect(library.findings("case.misce").map((f) => f.name)).not.toContain("swirled-to-other-end");
});

test.each([
  ["swirl vial", "Write `until`, and one of `dissolved`, `suspended` and `clear`"],
  ["swirl vial until dispersed", "Write `until`, and one of"],
  ["shake vial until it is dissolved", "Write `until`, and one of"],
  ["shake vial 10 times", "How often it is done is said by `mix`"],
  ["swirl vial by rolling until dissolved", "How it is done is said by `mix`"],
  ["swirl vial until foam has settled", "`wait until foam has settled`"],
  ["mix vial until dissolved", "A mixing says how"],
  ["mix vial", "A mixing says how"],
  ["mix vial by rolling for 2 min", "A mixing is counted, or done until an end is seen"],
  ["mix vial by rolling 2 min", "A mixing is counted, or done until an end is seen"],
  ["dissolve vial until clear", "`dissolve` says what comes of it"],
  ["roll vial until dissolved", "`mix vial by rolling`"],
])("`%s` is told with the way to write it", (step, remedy) => {
  const found = told(step);
  expect(found).toHaveLength(1);
  expect(found[0]).toContain(remedy);
});
