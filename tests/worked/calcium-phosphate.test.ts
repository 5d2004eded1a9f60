/**
 * Calcium beside phosphate is judged at the volume present when one is added, and over every source: prevention list of
 * "Calcium phosphate precipitates and acute respiratory distress" (tests/reference/practice/technique-rules.json,
 * ca-po4-volume-at-addition and ca-po4-all-sources). The limits here are invented, to show the two rules.
 */
import { expect, it } from "vitest";
import { cleared, ionsMet } from "../../language/checks/stability/ions-together.ts";
import { showQuantity } from "../../language/quantities/quantity.ts";
import { run } from "./recipe.ts";
import { inUnit } from "./rows.ts";

const phosphate = (name: string, strength: string) =>
  `stock ${name} {\n  fluid  vehicle\n  container  vial\n  contains  phosphate ${strength}\n  fill  1 L\n  capacity  2 L\n}`;

function mixture(limit: string, steps: string) {
  return run({
    drug: `formula  "CaCl2.2H2O"\n  ion  calcium charge 2\n  ion  chloride charge -1 count 2\n  together  calcium up to 10 mmol/L with phosphate up to ${limit}`,
    stock: "container  vial\n  strength  1 mmol/mL\n  fill  100 mL\n  capacity  1 L",
    more: `${phosphate("phosphate-salt", "1 mmol/mL")}\n${phosphate("buffered-amino-acids", "0.02 mmol/mL")}`,
    materials: "salt  phosphate-salt\n    amino  buffered-amino-acids",
    steps,
  });
}

const add = (volume: string, from: string) => `add ${volume} from ${from} to flask using spare`;

it("at the volume present, not at the final one: 5 mmol of each clear in 1 L, and not in the first 110 mL", () => {
  const early = [add("5 mL", "salt"), add("100 mL", "tank"), add("5 mL", "source"), add("890 mL", "tank")].join(
    "\n    ",
  );
  const late = [add("5 mL", "salt"), add("990 mL", "tank"), add("5 mL", "source")].join("\n    ");
  const [whenAdded] = ionsMet(mixture("8 mmol/L", early));
  expect(showQuantity(inUnit(whenAdded!.oneNow!, "mmol/L"), 4)).toBe("45.45 mmol/L");
  expect(cleared(whenAdded!)).toBe(false);
  const last = ionsMet(mixture("8 mmol/L", late));
  expect(last.map(cleared)).toEqual([true]);
  expect(showQuantity(inUnit(last[0]!.oneNow!, "mmol/L"), 4)).toBe("5 mmol/L");
});

it("over every source: 5 mmol of a salt and 4 mmol in the amino acids are 9 mmol/L, beyond 8", () => {
  const steps = [add("5 mL", "salt"), add("200 mL", "amino"), add("790 mL", "tank"), add("5 mL", "source")].join(
    "\n    ",
  );
  const [met] = ionsMet(mixture("8 mmol/L", steps));
  expect(showQuantity(inUnit(met!.otherNow!, "mmol/L"), 4)).toBe("9 mmol/L");
  expect(cleared(met!)).toBe(false);
  expect(cleared(ionsMet(mixture("9 mmol/L", steps))[0]!)).toBe(true);
});
