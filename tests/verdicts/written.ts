/** A scenario as text of the language, and on which line each spot stands. */
import { type Figure, figureText } from "../oracle/figure.ts";
import { Fraction } from "../oracle/fraction.ts";
import { water } from "../oracle/shelf.ts";
import { doseFigure } from "./amounts.ts";
import { number, Page, timeText } from "./page.ts";
import type { Additive, Range, Scenario, Spot } from "./scenario.ts";
import { filterName, writeDrug, writeFluid, writeSite, writeStocks } from "./write-library.ts";

export interface WrittenScenario {
  text: string;
  /** From 1. */
  lineOf: ReadonlyMap<Spot, number>;
}

export function writtenScenario(scenario: Scenario): WrittenScenario {
  const page = new Page();
  writeSite(page, scenario);
  page.block("reference guide", () => {
    page.put('title "Guide to injectable medicines of the Kestrel Quay Infirmary"');
    page.put('year "2026"');
    page.put("invented yes");
  });
  page.block("device measure", () => {
    page.put('source guide "devices"');
    page.put("kind syringe");
    page.put("capacity 60 mL");
    page.put("graduation 0.5 mL");
  });
  for (const pore of new Set(scenario.additives.flatMap(({ filter }) => filter ?? []))) {
    page.block(`device ${filterName(pore)}`, () => {
      page.put('source guide "devices"');
      page.put("kind filter-needle");
      page.put(`pore ${pore} micrometre`);
    });
  }
  for (const drug of scenario.drugs) writeDrug(page, drug);
  writeFluid(page, scenario.fluid);
  writeFluid(page, water);
  writeStocks(page, scenario);
  writeRecipe(page, scenario);
  return { text: `${page.lines.join("\n")}\n`, lineOf: page.lineOf };
}

/** The dose as the order says it, mg/kg and mg/m2 included. */
function orderedText(scenario: Scenario, additive: Additive): string {
  const { range } = scenario;
  if (range) return `${number(range.perKilogram)} ${range.unit}/kg per bag`;
  const [unit = "", ...patient] = additive.unit.split("/");
  const figure: Figure = doseFigure(scenario, additive);
  const counted = figure.ion ? ` of ${figure.ion}` : figure.as ? ` as ${figure.as}` : "";
  const plain = figureText({ ...figure, unit });
  return `${plain}${patient.map((part) => `/${part}`).join("")}${counted} per bag`;
}

function writeRecipe(page: Page, scenario: Scenario): void {
  const { additives, order, bag, deviations, range } = scenario;
  page.block("recipe judged", () => {
    page.put(`title "${additives.map(({ drug }) => drug.replaceAll("-", " ")).join(" with ")}"`);
    deviations.forEach(({ name, on, until }, i) => {
      page.put(`deviation ${name}${on ? ` on ${on}` : ""}`, `deviation ${i}`);
      page.put('  because "form KQ-200"');
      page.put("  by pharmacist");
      page.put(`  until ${until}`, `until ${i}`);
    });
    page.block("order", () => {
      const [only, second] = additives;
      if (second) {
        for (const each of additives)
          page.put(`additive ${each.drug} ${orderedText(scenario, each)}`, `dose ${each.drug}`);
      } else {
        page.put(`drug ${only!.drug}`);
        page.put(`dose ${orderedText(scenario, only!)}`, `dose ${only!.drug}`);
      }
      if (range) writeRange(page, range);
      else if (order.weight) page.put(`weight ${number(order.weight)} kg`);
      if (order.age) page.put(`age ${number(order.age)} years`);
      if (order.surface) page.put(`body-surface ${number(order.surface)} m2`);
      page.put(`diluent ${bag.fluid}`);
      page.put(`diluent-volume ${figureText(bag.fill!)}`);
      page.put("method add-to-bag");
      page.put("route intravenous", "route");
      page.put(`access ${order.access}`, "access");
      page.put(`use ${order.use}`, "use");
      if (order.inLineFilter) page.put(`in-line-filter ${order.inLineFilter} micrometre`, "in-line-filter");
      if (order.over) page.put(`infuse-over ${timeText(order.over)}`, "infuse-over");
      if (order.at)
        page.put(
          `infuse-at ${number(order.at.number)} ${order.at.unit}${order.at.as ? ` as ${order.at.as}` : ""}`,
          "infuse-at",
        );
    });
    page.block("materials", () => {
      for (const { drug, product, filter } of additives) {
        page.put(`${drug}-vial ${product.name}`, `material ${product.name}`);
        page.put(`${drug}-syringe measure`);
        page.put(`${drug}-needle needle-18-gauge`);
        if (filter) page.put(`${drug}-filter ${filterName(filter)}`);
      }
      page.put(`bag ${bag.name}`, `material ${bag.name}`);
    });
    writeSteps(page, scenario);
    writePreparation(page, scenario);
  });
}

function writeRange(page: Page, { from, to, step, round, maximum, unit }: Range): void {
  page.put(`weight ${number(from)} kg to ${number(to)} kg in steps of ${number(step)} kg`);
  if (round) page.put(`round dose to nearest ${number(round)} ${unit}`);
  if (maximum) page.put(`maximum dose ${number(maximum)} ${unit}`);
}

function writeSteps(page: Page, scenario: Scenario): void {
  const { additives, covered } = scenario;
  page.block("steps", () => {
    page.put(`check label and expiry of ${additives.map(({ drug }) => `${drug}-vial`).join(", ")}, bag`);
    for (const additive of additives) {
      const { drug, filter, waitBefore, volume, again } = additive;
      const [vial, syringe, needle] = ["vial", "syringe", "needle"].map((part) => `${drug}-${part}`);
      page.put(`attach ${filter ? `${drug}-filter` : needle} to ${syringe}`);
      const load = (much: string, again: string) => {
        page.put(`disinfect ${vial}`);
        page.put(`draw ${much} from ${vial} into ${syringe} at equal pressure`, `draw ${again}${drug}`);
        page.put(`expel air from ${syringe}`);
      };
      const into = (spot: string) => {
        page.put("disinfect bag");
        page.put(`inject ${syringe} into bag`, spot);
        page.put("mix bag by inverting 10 times");
      };
      const isWhole = additives.length === 1 && !again;
      const half = volume.over(Fraction.of(2));
      load(isWhole ? "dose" : `${number(again ? half : volume)} mL`, "");
      if (filter) page.put(`replace ${drug}-filter on ${syringe} with ${needle}`);
      if (waitBefore) page.put(`wait ${timeText(waitBefore)}`);
      into(`inject ${drug}`);
      if (!again) continue;
      page.put(`wait ${timeText(again)}`);
      load(`${number(half)} mL`, "again ");
      into(`inject again ${drug}`);
    }
    if (covered) page.put("protect bag from light");
    page.put("inspect bag");
    page.put("seal bag");
    page.put("label bag");
    const kept = additives.flatMap(({ drug, filter }) => [
      `${drug}-vial`,
      `${drug}-syringe`,
      `${drug}-needle`,
      ...(filter ? [`${drug}-filter`] : []),
    ]);
    page.put(`keep ${kept.join(", ")} for check`);
    page.put("check by pharmacist");
  });
}

function writePreparation(page: Page, { order, useWithin, tested }: Scenario): void {
  page.block(
    "preparation bag",
    () => {
      page.put(`form ${order.use.includes("bolus") ? "solution-for-injection" : "solution-for-infusion"}`);
      if (tested) page.put("sterility aseptic tested");
      for (const { time, at } of useWithin) page.put(`use-within ${timeText(time)} at ${at}`, `use-within ${at}`);
      page.put('appearance "clear, colourless, free of particles"');
    },
    "preparation",
  );
}
