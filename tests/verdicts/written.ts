/** A scenario as text of the language, and on which line each spot stands. */
import { amountText, type Figure, figureText } from "../oracle/figure.ts";
import { Fraction } from "../oracle/fraction.ts";
import type { FluidFact } from "../oracle/program.ts";
import { water } from "../oracle/shelf.ts";
import { doseFigure } from "./amounts.ts";
import type { Additive, Condition, Limits, Monograph, Pore, Range, Scenario, Spot, Time } from "./scenario.ts";

export interface WrittenScenario {
  text: string;
  /** From 1. */
  lineOf: ReadonlyMap<Spot, number>;
}

const number = (value: Fraction): string => {
  const text = value.decimal();
  if (text === undefined) throw new RangeError(`${value} has no end`);
  const [whole = "", part] = text.split(".");
  return `${whole.replace(/\B(?=(\d{3})+$)/g, ",")}${part ? `.${part}` : ""}`;
};

export const timeText = (time: Time): string => `${time.number} ${time.unit}`;

function limitsText({ low, high, unit }: Limits): string {
  const parts = [
    ...(low ? [`${low.included ? "from" : "above"} ${number(low.value)} ${unit}`] : []),
    ...(high ? [`${high.included ? "up to" : "below"} ${number(high.value)} ${unit}`] : []),
  ];
  return parts.length > 0 ? parts.join(" ") : "any";
}

const whenText = (when: Condition | undefined): string => (when ? ` when ${when.input} ${limitsText(when)}` : "");

const poreText = (word: string, pore: Pore | undefined): string[] => {
  if (!pore) return [];
  const edge = pore.micrometres
    ? ` ${pore.rule === "required" ? "up to" : "below"} ${pore.micrometres} micrometre`
    : "";
  return [`${word} ${pore.rule}${edge}`];
};

class Page {
  readonly lines: string[] = [];
  readonly lineOf = new Map<Spot, number>();

  put(text: string, spot?: Spot): void {
    this.lines.push(text);
    if (spot !== undefined) this.lineOf.set(spot, this.lines.length);
  }

  block(head: string, body: () => void, spot?: Spot): void {
    this.put(`${head} {`, spot);
    body();
    this.put("}");
  }
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

const filterName = (pore: string): string => `filter-${pore.replace(".", "-")}`;

function writeSite(page: Page, { site }: Scenario): void {
  page.block("site", () => {
    page.put('name "Kestrel Quay Infirmary"');
    page.put("cabinet horizontal-laminar-flow");
    page.put(`beyond-use ${site.edition}${site.category ? ` category ${site.category}` : ""}`);
    page.put("tolerance dose 5 %");
    page.put(`expiry-ahead ${site.expiryAhead} days`);
    page.put("role pharmacist");
    if (site.monthOnly) page.put(`month-only ${site.monthOnly}`);
    if (site.pumpStep) page.put(`pump-step ${number(site.pumpStep)} mL/h`);
    if (site.osmolarity !== undefined) page.put(`peripheral-osmolarity up to ${site.osmolarity} mOsm/L`);
    for (const { name, grade } of site.severity) page.put(`severity ${name} ${grade} because "form KQ-140"`);
    for (const name of site.neverSilenced) page.put(`never-silenced ${name}`);
  });
}

function writeDrug(page: Page, drug: Monograph): void {
  const { name, formulaText, ion, salt } = drug.fact;
  page.block(`drug ${name}`, () => {
    page.put(`source guide "${name}"`);
    page.put(`name "${name.replaceAll("-", " ")}"`);
    page.put("invented yes");
    if (formulaText) page.put(`formula "${formulaText}"`);
    if (ion) page.put(`ion ${ion.name} charge ${ion.charge}${ion.count > 1 ? ` count ${ion.count}` : ""}`);
    if (salt) {
      page.put(`counted-as ${salt.base}`);
      page.put(`salt ${salt.name} ${figureText(salt.massForOneGram)} for 1 g`);
    }
    page.put("high-alert no");
    page.put("hazard not-hazardous");
    page.put(`light ${drug.light}`);
    for (const other of drug.compatible) page.put(`compatible ${other}`);
    for (const other of drug.incompatible) page.put(`incompatible ${other}`);
    for (const other of drug.addedBefore) page.put(`added-before ${other}`);
    for (const { one, upTo, other, otherUpTo } of drug.together)
      page.put(`together ${one} up to ${number(upTo)} mmol/L with ${other} up to ${number(otherUpTo)} mmol/L`);
    for (const { material, suits, over } of drug.materials) {
      const giving = over ? ` for giving over ${timeText(over)}` : "";
      page.put(`container-material ${material} ${suits ? "suitable" : "unsuitable"}${giving}`);
    }
    for (const text of poreText("filter", drug.filter)) page.put(text);
    for (const text of poreText("in-line-filter", drug.inLine)) page.put(text);
    for (const row of drug.limits) {
      const counted = row.ion ? ` of ${row.ion}` : row.as ? ` as ${row.as}` : "";
      const route = row.route === "any" ? " for any route" : ` for route ${row.route}`;
      const access = row.access ? ` access ${row.access}` : "";
      const use = row.use ? ` use ${row.use}` : "";
      page.put(`${row.kind} ${limitsText(row)}${counted}${route}${access}${use}${whenText(row.when)}`);
    }
    for (const row of drug.stable) {
      page.block("stable", () => {
        page.put('source guide "table 7"');
        page.put(`in ${row.in}`);
        page.put(`at ${row.at}`);
        const as = row.as && row.concentration ? ` as ${row.as}` : "";
        page.put(`concentration ${row.concentration ? limitsText(row.concentration) : "any"}${as}`);
        page.put(`made-of ${row.madeOf}`);
        page.put(`light ${row.light}`);
        page.put(`counted-from ${row.countedFrom}`);
        page.put(`for ${timeText(row.for)}`);
      });
    }
  });
}

function writeFluid(page: Page, fluid: FluidFact): void {
  page.block(`fluid ${fluid.name}`, () => {
    page.put('source guide "fluids"');
    page.put(`name "${fluid.title}"`);
    for (const row of fluid.contains) page.put(`contains ${row.ion} ${figureText(row.figure)}`);
    page.put(`osmolarity ${fluid.osmolarity} mOsm/L`);
    page.put("use injection");
  });
}

function writeStocks(page: Page, { additives, bag, lots }: Scenario): void {
  for (const { product } of additives) {
    page.block(`stock ${product.name}`, () => {
      page.put('source guide "products"');
      page.put(`drug ${product.drug}`);
      page.put("container vial");
      page.put(`strength ${amountText(product.strength!)}`);
      page.put(`fill ${figureText(product.fill!)}`);
      for (const row of product.contains ?? []) page.put(`contains ${row.ion} ${figureText(row.figure)}`);
      page.put(`osmolarity ${product.osmolarity} mOsm/L`);
      page.put("made-of glass");
      page.put(`doses ${product.doses}`);
      page.put("preservative none");
      if (product.inUse) page.put(`in-use ${timeText(product.inUse)} at room-temperature`);
      page.put("storage room-temperature");
    });
  }
  page.block(`stock ${bag.name}`, () => {
    page.put('source guide "products"');
    page.put(`fluid ${bag.fluid}`);
    page.put("container bag");
    page.put(`fill ${figureText(bag.fill!)}`);
    page.put(`capacity ${figureText(bag.capacity!)}`);
    if (bag.madeOf) page.put(`made-of ${bag.madeOf}`);
    page.put("doses single");
    page.put("storage room-temperature");
  });
  for (const [stock, list] of lots) {
    page.block(`lots ${stock}`, () => {
      for (const { id, expires } of list) page.put(`lot "${id}" expires ${expires}`, `lot ${id}`);
    });
  }
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
