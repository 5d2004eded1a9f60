/** The declarations of a scenario: site, drugs, fluids, products and what is on the shelf. */
import { amountText, figureText } from "../oracle/figure.ts";
import type { FluidFact } from "../oracle/program.ts";
import { limitsText, number, type Page, poreText, timeText, whenText } from "./page.ts";
import type { Monograph, Scenario } from "./scenario.ts";

export const filterName = (pore: string): string => `filter-${pore.replace(".", "-")}`;

export function writeSite(page: Page, { site }: Scenario): void {
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

export function writeDrug(page: Page, drug: Monograph): void {
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

export function writeFluid(page: Page, fluid: FluidFact): void {
  page.block(`fluid ${fluid.name}`, () => {
    page.put('source guide "fluids"');
    page.put(`name "${fluid.title}"`);
    for (const row of fluid.contains) page.put(`contains ${row.ion} ${figureText(row.figure)}`);
    page.put(`osmolarity ${fluid.osmolarity} mOsm/L`);
    page.put("use injection");
  });
}

export function writeStocks(page: Page, { additives, bag, lots }: Scenario): void {
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
