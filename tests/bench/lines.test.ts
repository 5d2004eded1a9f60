/** A filled line counts in the volume of its container where the order says so, and nowhere else. Volumes worked out by hand. */
import { expect, test } from "vitest";
import { type Run, runRecipe } from "../../language/bench/run.ts";
import { sourcesOf } from "../../language/bench/uncertainty.ts";
import { powderExample } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";

/** 500 mg reconstituted to 10 mL, and saline from a second bag, in an infusor whose line holds 2 mL. */
function pump(order: string, ...steps: string[]): string {
  return powderExample(
    [
      "stock wfi-vial-20 {",
      `stock home-pump {\n  container  infusor\n  capacity   60 mL\n  priming-volume  2 mL  source guide "pumps"\n}\n\nstock wfi-vial-20 {`,
    ],
    [
      "    diluent-volume  100 mL\n    method          add-to-bag\n    route           intravenous\n    access          peripheral\n    infuse-over     60 min\n  }\n\n  materials {\n    vial ",
      `    final-volume    ${order}\n    method          build-from-empty\n    route           intravenous\n    access          peripheral\n    infuse-over     60 min\n  }\n\n  materials {\n    vial `,
    ],
    ["dose            500 mg per sack", "dose            500 mg per pump"],
    [
      "    thin         needle-21-gauge\n",
      "    thin         needle-21-gauge\n    pump         home-pump\n    big          syringe-30mL\n",
    ],
    [
      "    inject measure into sack\n    mix sack by inverting 10 times\n    inspect sack\n    seal sack\n    label sack\n",
      steps.map((s) => `    ${s}\n`).join(""),
    ],
    ["preparation sack", "preparation pump"],
  );
}

function run(text: string): Run {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("a.misce", text);
  const { lookup, policy } = library.surroundings();
  const recipe = library.ofKind("recipe").find((d) => d.name.name === "vancomycin-500mg") as Recipe;
  return runRecipe(recipe, lookup, policy, { point: new Map(), overfill: "label" });
}

function volume({ finals, unknown }: Run): string {
  return unknown ? "unknown" : finals[0]!.liquid.volume.toText();
}

const filled = ["fill pump with 50 mL from sack using big", "prime line of pump", "inject measure into pump"];

test("the line is filled from the infusor: 50 mL and 10 mL stay 60 mL where the line counts", () => {
  expect(volume(run(pump("60 mL line included", ...filled)))).toBe("60");
});

test("and 2 mL of them stand in the line where it does not", () => {
  expect(volume(run(pump("60 mL line excluded", ...filled)))).toBe("58");
});

test("the drug comes after the line was filled, so that all 500 mg are in the reservoir", () => {
  const { finals } = run(pump("60 mL line excluded", ...filled));
  expect(finals[0]!.liquid.amounts.get("vancomycin")!.toText()).toBe("0.5");
});

test("the line stands beside the reservoir: 61 mL with the line fit into one of 60 mL", () => {
  const steps = ["fill pump with 10 mL from sack using big", "prime line of pump", "inject measure into pump"];
  const more = ["make up pump to 61 mL with sack using big"];
  expect(run(pump("61 mL line included", ...steps, ...more)).happenings.map((h) => h.kind)).not.toContain(
    "container-overfilled",
  );
  expect(run(pump("61 mL line excluded", ...steps, ...more)).happenings.map((h) => h.kind)).toContain(
    "container-overfilled",
  );
});

test("nothing is judged where nobody says what the line holds", () => {
  const text = pump("60 mL line included", ...filled).replace(/ {2}priming-volume .*\n/, "");
  expect(volume(run(text))).toBe("unknown");
});

test("50 mL with a syringe of 30 mL go over in two loads, each read by the scale", () => {
  const loads = run(pump("60 mL line included", ...filled));
  const step = loads.steps.find((s) => s.verb === "fill")!;
  expect(step.movements.filter((m) => m.how === "push").map((m) => m.moved.toText())).toEqual(["30", "20"]);
  expect(step.moved!.toText()).toBe("50");
  // Half a mark of 1 mL for each.
  const read = sourcesOf(loads).find((s) => s.what === "reading" && s.step === step.number);
  expect(read?.allows.toText()).toBe("1");
});
