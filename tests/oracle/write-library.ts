/** The declarations of a program as a pharmacist would write them: site, drugs, fluids, products, syringes, lots. */
import { amountText, type Figure, figureText } from "./figure.ts";
import type { BandsFact, DrugFact, FluidFact, Program, StockFact, SyringeFact } from "./program.ts";

const head = `site {
  name           "Kestrel Quay Infirmary"
  cabinet        horizontal-laminar-flow
  beyond-use     usp-797-2023 category 2
  tolerance      dose 5 %
  expiry-ahead   30 days
  role           pharmacist
}

reference guide {
  title     "Guide to injectable medicines of the Kestrel Quay Infirmary"
  year      "2026"
  invented  yes
}

device tip-cap {
  kind  cap
}
`;

export const block = (opening: string, lines: readonly string[]): string =>
  `${opening} {\n${lines.map((line) => `  ${line.replaceAll("\n", "\n  ")}`).join("\n")}\n}`;

/** The name under which a syringe of this size is declared. */
export function syringeName({ capacity, deadSpace }: SyringeFact): string {
  return `measure-${capacity.value}mL${deadSpace ? "-with-nozzle" : ""}`;
}

/** A giving set by what it holds. */
export function setName(holds: Figure): string {
  return `set-of-${holds.value}mL`;
}

function bandsText({ name, rows }: BandsFact): string {
  const lines = rows.map(
    ({ from, below, gives }) => `from ${figureText(from)} below ${figureText(below)} gives ${figureText(gives)}`,
  );
  return block(`bands ${name}`, ['source guide "banding"', ...lines]);
}

function drugText({ name, formulaText, ion, salt }: DrugFact, fluids: readonly FluidFact[]): string {
  return block(`drug ${name}`, [
    `source guide "${name}"`,
    `invented yes`,
    `name "${name.replaceAll("-", " ")}"`,
    ...(formulaText ? [`formula "${formulaText}"`] : []),
    ...(ion ? [`ion ${ion.name} charge ${ion.charge}${ion.count > 1 ? ` count ${ion.count}` : ""}`] : []),
    ...(salt ? [`counted-as ${salt.base}`, `salt ${salt.name} ${figureText(salt.massForOneGram)} for 1 g`] : []),
    "high-alert no",
    "hazard not-hazardous",
    "light not-sensitive",
    ...fluids.map((fluid) => `compatible ${fluid.name}`),
    "dose any for any route",
    "concentration any for any route",
    "rate any for any route",
    block("stable", [
      'source guide "table 7"',
      ...["in", "at", "concentration", "made-of", "light"].map((condition) => `${condition} any`),
      "counted-from mixing",
      "for 24 h",
    ]),
  ]);
}

function fluidText({ name, title, contains, osmolarity }: FluidFact): string {
  return block(`fluid ${name}`, [
    'source guide "fluids"',
    `name "${title}"`,
    ...contains.map((row) => `contains ${row.ion} ${figureText(row.figure)}`),
    `osmolarity ${osmolarity} mOsm/L`,
    "use injection",
  ]);
}

function stockText(stock: StockFact): string {
  const { powder, overfill } = stock;
  return block(`stock ${stock.name}`, [
    'source guide "products"',
    ...(stock.drug ? [`drug ${stock.drug}`] : []),
    ...(stock.fluid ? [`fluid ${stock.fluid}`] : []),
    `container ${stock.container}`,
    ...(stock.strength ? [`strength ${amountText(stock.strength)}`] : []),
    ...(powder ? [`content ${amountText(powder.content)}`] : []),
    ...(stock.contains ?? []).map((row) => `contains ${row.ion} ${figureText(row.figure)}`),
    ...(stock.fill ? [`fill ${figureText(stock.fill)}`] : []),
    ...(overfill ? [`overfill ${figureText(overfill.least)} to ${figureText(overfill.most)}`] : []),
    ...(stock.capacity ? [`capacity ${figureText(stock.capacity)}`] : []),
    ...(stock.ownLine ? [`priming-volume ${figureText(stock.ownLine)}`] : []),
    ...(stock.osmolarity === undefined ? [] : [`osmolarity ${stock.osmolarity} mOsm/L`]),
    ...(powder?.displacement ? [`displacement ${figureText(powder.displacement)}`] : []),
    ...(stock.container === "powder-vial" ? [] : [`made-of ${stock.container === "vial" ? "glass" : "polyolefin"}`]),
    `doses ${stock.container === "vial" ? "multiple" : "single"}`,
    ...(stock.container === "vial"
      ? ["preservative none", 'in-use 24 h at room-temperature  source guide "in use"']
      : []),
    "storage room-temperature",
    ...(powder?.label
      ? [
          block("reconstitute", [
            'source guide "label"',
            `with ${figureText(powder.label.with)} of ${powder.label.fluid}`,
            powder.givesAbout
              ? `gives about ${figureText(powder.givesAbout)}`
              : `gives ${figureText(powder.label.gives)}`,
            `withdrawable ${figureText(powder.label.withdrawable)}`,
          ]),
        ]
      : []),
  ]);
}

function syringeText(syringe: SyringeFact): string {
  return block(`device ${syringeName(syringe)}`, [
    'source guide "devices"',
    "kind syringe",
    `capacity ${figureText(syringe.capacity)}`,
    `graduation ${figureText(syringe.graduation)}`,
    ...(syringe.deadSpace ? [`dead-space ${figureText(syringe.deadSpace)}`] : []),
  ]);
}

export function libraryText(program: Program): string {
  const syringes = new Map(
    program.materials.flatMap(({ syringe }) => (syringe ? [[syringeName(syringe), syringe]] : [])),
  );
  const sets = new Map(program.materials.flatMap(({ set }) => (set ? [[setName(set), set]] : [])));
  return [
    head,
    ...program.drugs.map((drug) => drugText(drug, program.fluids)),
    ...program.fluids.map(fluidText),
    ...program.bands.map(bandsText),
    ...program.stocks.map(stockText),
    ...[...syringes.values()].map(syringeText),
    ...[...sets].map(([name, holds]) =>
      block(`device ${name}`, ['source guide "sets"', "kind tubing", `priming-volume ${figureText(holds)}`]),
    ),
    ...program.stocks.map(({ name }, i) => block(`lots ${name}`, [`lot "KQ-${2000 + i}"  expires 2027-11`])),
  ].join("\n\n");
}
