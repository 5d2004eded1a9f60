/**
 * Published lists of standard infusions, every row as an order: the strength and the volume are ordered, and the bench must draw the
 * amount that the list prints. And a printed table of pump rates, figure by figure. Sources: practice/infusion-lists.json.
 */
import { describe, expect, it } from "vitest";
import { doseRateTable } from "../../language/bench/rates.ts";
import { defaultPolicy } from "../../language/model/policy.ts";
import { Exact } from "../../language/quantities/exact.ts";
import { showQuantity, times } from "../../language/quantities/quantity.ts";
import { amountIn, concentrationIn, run, vessel, volumeIn } from "../worked/recipe.ts";
import { inUnit, measure } from "../worked/rows.ts";
import { liquidStock } from "../worked/shapes/drawing.ts";
import published from "./practice/infusion-lists.json" with { type: "json" };

type Row = readonly [drug: string, amount: string | null, volume: string, concentration: string];

const makeUp = (volume: string) =>
  `draw dose from source into syringe\n    inject syringe into flask\n    make up flask to ${volume} with tank using spare`;

/** A stock so strong that any row's amount is a small part of the volume. */
const strong = (concentration: string) => liquidStock(`1000000 ${concentration.replace(/^\S+ /, "")}`);

function made([, , volume, concentration]: Row) {
  const order = `concentration  ${concentration}\n    final-volume  ${volume}`;
  const preparation = `concentration  ${concentration}`;
  return run({ stock: strong(concentration), order, steps: makeUp(volume), preparation });
}

for (const { title, where, rows } of published.lists) {
  describe(`${title} (${where})`, () => {
    it.each(rows as unknown as Row[])("%s, %s in %s: %s", (...row) => {
      const [, amount, volume, concentration] = row;
      const result = made(row);
      const [, unit = ""] = /^\S+ (.*)$/.exec(concentration) ?? [];
      expect(inUnit(concentrationIn(result, "flask"), unit).value.equals(measure(concentration).value)).toBe(true);
      expect(volumeIn(result, "flask").value.equals(measure(volume).value)).toBe(true);
      const printed = amount === null ? times(measure(concentration), measure(volume)) : measure(amount);
      const drawn = inUnit(amountIn(result, "flask"), printed.unit.spelling);
      expect(drawn.value.equals(printed.value), `${showQuantity(drawn)} beside ${showQuantity(printed)}`).toBe(true);
      expect(drawn.value.equals(printed.value.times(Exact.of(10)))).toBe(false);
    });
  });
}

describe(`${published.rates.title} (${published.rates.where})`, () => {
  const { amount, volume, weights, rows, again } = published.rates;

  /** mL/h as the pump is set, weight by weight, for a dose rate in mcg/kg/min. */
  function rates(of: { amount: string; volume: string }, dose: string): string[] {
    const order = `dose  ${of.amount} per flask\n    weight  30 kg to 100 kg`;
    const result = run({ stock: liquidStock("1000000 mg/mL"), order, steps: makeUp(of.volume) });
    const columns = [measure(`${dose} mcg/kg/min`)];
    const flask = vessel(result, "flask");
    const table = doseRateTable(result, flask, "remedy", columns, weights.map(measure), defaultPolicy());
    if (typeof table === "string") throw new Error(table);
    return table.rows.map((row) => inUnit(row.cells[0]!.pump, "mL/h").value.toText());
  }

  it.each(Object.entries(rows))("%s mcg/kg/min: %s", (dose, printed) => {
    expect(rates({ amount, volume }, dose)).toEqual(printed.split(" ").map((each) => each.replace(/\.0$/, "")));
  });

  it(`${again.amount} in ${again.volume}: ${again.why}`, () => {
    expect(rates(again, "0.1")).toEqual(rates({ amount, volume }, "0.05"));
    expect(rates(again, "0.1")).not.toEqual(rows["0.1"].split(" ").map((each) => each.replace(/\.0$/, "")));
  });
});
