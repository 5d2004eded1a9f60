/** Dilution, mixing of two strengths, percent and ratio strengths, serial dilution. */
import { alligate } from "../../../language/quantities/alligation.ts";
import { over, type Quantity, type Refusal, times } from "../../../language/quantities/quantity.ts";
import { ratioStrength } from "../../../language/quantities/ratio.ts";
import { amountIn, concentrationIn, movedBy, run, volumeIn } from "../recipe.ts";
import { given, inUnit, known, measure, type Row, text } from "../rows.ts";
import { drawn, liquidStock } from "./drawing.ts";
import { written } from "./powder.ts";
import type { Shape } from "./shape.ts";

const intoFlask = (volume: string) => `draw ${volume} from source into syringe\n    inject syringe into flask`;

/** Draws a volume and makes it up: what stands in the flask. */
export function madeUp(strength: string, volume: string, to: string) {
  return drawn(strength, volume, { steps: `${intoFlask(volume)}\n    make up flask to ${to} with tank using spare` });
}

/** Draws a volume and adds a volume of diluent. */
export function diluted(strength: string, volume: string, diluent: string, further = "") {
  return drawn(strength, volume, {
    steps: `${intoFlask(volume)}\n    add ${diluent} from tank to flask using spare\n    mix flask by inverting\n    ${further}`,
  });
}

/** A bare percent of the source, with the kind that the language asks for; the kind cancels in a mixture. */
const percent = (row: Row, name: string): Quantity => measure(`${row.given[name]!.value} % w/v`);

function parts(row: Row, which: "high" | "low"): Quantity | Refusal {
  const total = given(row, "total");
  const found = known(alligate(percent(row, "high"), percent(row, "low"), percent(row, "target"), total));
  checkOnBench(row, found.high, found.low);
  return found[which];
}

/** Poured together on the bench the two make the strength wanted, all of it. */
function checkOnBench(row: Row, high: Quantity, low: Quantity): void {
  if (!high.value.terminates()) return; // no author can write it; the exact share stands
  const isDiluent = row.given.low!.value === "0";
  const source = isDiluent ? "tank" : "weaker";
  const result = run({
    stock: liquidStock(`${row.given.high!.value} % w/v`, "1000 L"),
    more: isDiluent
      ? ""
      : `stock weak {\n  drug  remedy\n  ${liquidStock(`${row.given.low!.value} % w/v`, "1000 L")}\n}`,
    materials: isDiluent ? "" : "weaker  weak",
    steps: `${intoFlask(written(high))}\n    draw ${written(low)} from ${source} into spare\n    inject spare into flask`,
  });
  const reached = inUnit(concentrationIn(result, "flask"), "% w/v").value;
  const whole = inUnit(volumeIn(result, "flask"), row.given.total!.unit).value;
  if (!reached.equals(percent(row, "target").value) || !whole.equals(given(row, "total").value)) {
    throw new Error(`${row.id}: the bench makes ${reached.toText()} % and ${whole.toText()} ${row.given.total!.unit}`);
  }
}

export const mixing: readonly Shape[] = [
  {
    name: "concentration after dilution to a volume",
    rows: ["04-001", "04-003", "04-004", "04-005", "04-006"],
    find: (row) => concentrationIn(madeUp(text(row, "C1"), text(row, "V1"), text(row, "V2")), "flask"),
  },
  {
    name: "volume to which a stock may be diluted",
    rows: ["04-007", "04-008", "04-009"],
    find: (row) => over(amountIn(drawn(text(row, "C1"), text(row, "V1")), "syringe"), given(row, "C2")),
  },
  {
    name: "stock volume for a dilution",
    rows: ["04-011", "04-012"],
    find: (row) => movedBy(drawn(text(row, "C1"), written(times(given(row, "C2"), given(row, "V2")))), 1),
  },
  {
    name: "stock mass for a dilution by weight",
    rows: ["04-013"],
    find: (row) => {
      const share = (name: string) => measure(`${row.given[name]!.value} % w/w`);
      return over(times(share("target_percent"), given(row, "target_mass")), share("stock_percent"));
    },
  },
  {
    name: "two strengths mixed: how much of the higher",
    rows: "04-015 04-017 04-019 04-020 04-025 04-033 04-036 04-037".split(" "),
    find: (row) => parts(row, "high"),
  },
  {
    name: "two strengths mixed: how much of the lower",
    rows: "04-014 04-022 04-023 04-027 04-034 04-035".split(" "),
    find: (row) => parts(row, "low"),
  },
  {
    // A mass in a mass: the quotient is the share by weight.
    name: "share by weight",
    rows: ["04-039"],
    find: (row) => over(given(row, "solute"), given(row, "solution")),
  },
  {
    name: "volume of a liquid by weight percent and density",
    rows: ["04-042"],
    find: (row) => over(given(row, "solute"), times(given(row, "percent"), given(row, "density"))),
  },
  {
    name: "ratio strength as percent",
    rows: ["04-056"],
    find: (row) => {
      if (row.given.ratio_parts!.unit !== "mL per g") throw new Error(row.id);
      return ratioStrength(`1:${row.given.ratio_parts!.value}`, "w/v")!;
    },
  },
  {
    name: "two dilution steps",
    rows: ["04-061"],
    find: (row) => {
      if (row.given.steps!.value !== "2") throw new Error(row.id);
      const [transfer, diluent] = [text(row, "transfer"), text(row, "diluent")];
      const further = `draw ${transfer} from flask into syringe\n    inject syringe into second\n    add ${diluent} from tank to second using spare`;
      return over(measure("1 mg/mL"), concentrationIn(diluted("1 mg/mL", transfer, diluent, further), "second"));
    },
  },
  {
    // A count in a volume is no amount of a drug, so no recipe; the quotient keeps its unit 1/mL.
    name: "count in the undiluted sample",
    rows: ["04-062"],
    find: (row) => times(over(given(row, "count"), given(row, "plated")), given(row, "dilution_factor")),
  },
  {
    name: "concentration of a small dilution",
    rows: ["08-018", "08-019", "08-021", "08-022"],
    find: (row) => concentrationIn(diluted(text(row, "stock"), text(row, "drawn"), text(row, "diluent")), "flask"),
  },
  {
    name: "mass in a small final volume",
    rows: ["08-027", "08-029", "08-030"],
    find: (row) => small(row, text(row, "stock")),
  },
  {
    name: "mass in a small final volume, drawn as a mass",
    rows: ["08-026"],
    find: (row) => small(row, written(over(given(row, "mass"), given(row, "drawn")))),
  },
];

function small(row: Row, strength: string): Quantity {
  const last = `draw ${text(row, "final_dose_volume")} from flask into syringe`;
  return amountIn(diluted(strength, text(row, "drawn"), text(row, "diluent"), last), "syringe");
}
