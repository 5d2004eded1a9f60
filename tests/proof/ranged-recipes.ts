/**
 * Recipes with ranged orders, made by chance from a seed: caps, roundings, bands of diluent, syringes, limits, two inputs, and rows
 * of order and monograph that hold for some patients only.
 */
import { standardLibrary } from "../../language/checks/example.ts";

/** A small generator of numbers between 0 and 1 (mulberry32, public domain). */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function rangedRecipe(seed: number): string {
  const next = chance(seed);
  const one = <T>(...of: T[]): T => of[Math.floor(next() * of.length)]!;
  const maybe = (share: number, text: string) => (next() < share ? text : "");
  const low = one(2, 3.5, 10, 12, 40);
  const high = low + one(2, 7.3, 20, 68);
  const steps = maybe(0.5, ` in steps of ${one("0.1 kg", "0.5 kg", "1 kg")}`);
  const perKilogram = one("10 mg/kg", "20 mg/kg", "37.5 mg/kg", "50 mg/kg", "0.08 mmol/kg");
  const byAmount = perKilogram.includes("mg");
  const conditional = next() < 0.3;
  const aged = next() < 0.25;
  const weight = aged
    ? `    weight          ${low} kg to ${high} kg${steps}  when age below 3 years\n    weight          ${low + 1} kg to ${high + 5} kg${steps}  when age from 3 years\n    age             1 years to 10 years${maybe(0.5, " in steps of 1 years")}\n`
    : `    weight          ${low} kg to ${high} kg${steps}\n`;
  const diluent = conditional
    ? `    diluent-volume  100 mL  when dose up to ${one("500 mg", "1 g")}\n    diluent-volume  50 mL  when dose above ${one("500 mg", "1 g")}\n`
    : "    diluent-volume  100 mL\n";
  const rounding = byAmount
    ? maybe(
        0.5,
        `    round           dose ${one("to nearest", "upward to", "downward to")} ${one("50 mg", "250 mg")}\n`,
      )
    : "";
  const cap = byAmount ? maybe(0.5, `    maximum         dose ${one("500 mg", "1.2 g", "2 g")}\n`) : "";
  const floor = byAmount ? maybe(0.3, `    minimum         dose ${one("100 mg", "400 mg")}\n`) : "";
  const syringe = one("syringe-3mL", "syringe-5mL", "syringe-10mL", "syringe-20mL");
  const order = `    drug            magnesium-sulfate
${weight}    dose            ${perKilogram}${byAmount ? "" : " of magnesium"} per bag
${rounding}${cap}${floor}    diluent         sodium-chloride-0.9
${diluent}    method          ${one("add-to-bag", "withdraw-first")}
    route           intravenous
    access          ${one("peripheral", "central")}
    infuse-over     ${one("30 min", "1 h", "4 h")}
`;
  const only = maybe(0.3, `    only when weight above ${low + 1} kg {\n      tap bag\n    }\n`);
  const withdraw = maybe(0.4, "    withdraw added-volume from bag using waste and discard\n    disinfect bag\n");
  const middle = low + one(1, 4);
  const byWeight = (row: string, other: string) =>
    `${row}  when weight ${one("below", "up to")} ${middle} kg\n${other}  when weight ${one("from", "above")} ${middle} kg\n`;
  const rows: (readonly [RegExp, (row: string) => string])[] = [
    [
      / {4}infuse-over .*\n/,
      () => "    infuse-over     30 min  when dose up to 700 mg\n    infuse-over     2 h  when dose above 700 mg\n",
    ],
    [
      / {4}dose .*\n/,
      (row) => byWeight(row.trimEnd(), row.trimEnd().replace(/\d[\d.]* m/, byAmount ? "15 m" : "0.05 m")),
    ],
    [/ {4}maximum .*\n/, (row) => byWeight(row.trimEnd(), "    maximum         dose 800 mg")],
    [
      / {2}concentration {2}up to .*\n/,
      (row) => byWeight(row.trimEnd(), "  concentration  up to 12 mg/mL for route intravenous"),
    ],
  ];
  const parted = rows.filter(() => next() < 0.2);
  const text = whole();
  return parted.reduce((now, [pattern, rowsOf]) => now.replace(pattern, rowsOf), text);

  function whole(): string {
    return standardLibrary
      .replace(/ {4}drug {12}magnesium-sulfate[\s\S]*?infuse-over {5}4 h\n/, order)
      .replace("    syringe      syringe-10mL", `    syringe      ${syringe}\n    waste        syringe-20mL`)
      .replace("draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe")
      .replace("    concentration  37.04 mg/mL\n", maybe(0.2, "    concentration  15 mg/mL\n"))
      .replace("    inject syringe into bag\n", `${withdraw}    inject syringe into bag\n${only}`)
      .replace("up to 200 mg/mL", `up to ${one("8 mg/mL", "20 mg/mL", "200 mg/mL")}`)
      .replace("up to 9 g/h", `up to ${one("300 mg/h", "1 g/h", "9 g/h")}`)
      .replace("from 500 mg up to 10 g", `from ${one("50 mg", "300 mg")} up to ${one("900 mg", "10 g")}`)
      .replace(
        "  strength   500 mg/mL",
        `  strength   ${one("500 mg/mL", "100 mg/mL", "200 mg/mL")}\n  one-filter-for  40  source guide`,
      )
      .replace("magnesium-4g {", "magnesium-by-weight {")
      .replace(
        "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL",
        "Magnesium sulfate by weight in sodium chloride 0.9 %",
      );
  }
}
