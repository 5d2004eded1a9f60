/** `stock`: a product kept on the shelf. */
import { fact } from "../facts.ts";

export const containerKinds = [
  "ampoule",
  "vial",
  "powder-vial",
  "bag",
  "bottle",
  "evacuated-bottle",
  "prefilled-syringe",
  "empty-bag",
  "empty-bottle",
  "empty-vial",
  "infusor",
  "cassette",
] as const;
export type ContainerKind = (typeof containerKinds)[number];

export const stockFacts = {
  drug: fact("<drug:name> [as <salt?:name>]", "The drug it holds."),
  fluid: fact("<fluid:name>", "The fluid it holds."),
  container: fact(
    "<kind:ampoule|vial|powder-vial|bag|bottle|evacuated-bottle|prefilled-syringe|empty-bag|empty-bottle|empty-vial|infusor|cassette>",
    "What it comes in.",
    { required: true },
  ),
  strength: fact(
    "<strength:strength> [as <salt?:name>]",
    "Amount in a volume, as labelled: `50 mg/mL`, or `125 mg in 3 mL`.",
  ),
  "strength-tolerance": fact("<share:measure>", "How far the content may lie from the label's strength, either way.", {
    sourced: true,
  }),
  content: fact("<content:measure> [as <salt?:name>]", "Amount of drug in one powder container."),
  contains: fact("<what:name> <amount:measure>", "Ions and other substances in a volume of it.", { many: true }),
  osmolarity: fact("<osmolarity:measure>", "Osmolarity of the product as its label states it.", { sourced: true }),
  fill: fact("<fill:measure>", "Labelled volume."),
  overfill: fact("<overfill:range>", "What it holds beyond the labelled volume.", { sourced: true }),
  capacity: fact("<capacity:measure>", "What it can hold in all.", {}),
  "priming-volume": fact("<volume:measure>", "What the line fixed to an infusor or cassette holds once it is filled.", {
    sourced: true,
  }),
  density: fact("<density:measure>", "Density of the liquid as it is supplied.", { sourced: true }),
  "empty-weight": fact("<weight:measure>", "What the empty container weighs.", { sourced: true }),
  "made-of": fact("<material:name>", "Container material."),
  doses: fact("<doses:single|multiple|bulk>", "Single-dose, multiple-dose, or a bulk package for the pharmacy."),
  preservative: fact("<what:name>", "The preservative, or none."),
  route: fact(
    "<route:name>",
    "A route by which the label lets it be given; where one is stated, it is given by no other. Unstated, its name is looked at alone.",
    { many: true },
  ),
  storage: fact("<place:name>", "Where it is kept unopened."),
  "in-use": fact("<time:measure> [at <place?:name>]", "How long it may be used after first opening.", {
    sourced: true,
  }),
  displacement: fact("<volume:measure>", "Volume that the powder itself takes up, for the container or for a mass.", {
    sourced: true,
  }),
  gtin: fact("<code:text>", "Pack identifier."),
  "one-filter-for": fact("<count:number>", "How many containers one filter may serve, where the label says so.", {
    sourced: true,
  }),
  spike: fact("<answer:forbidden|allowed>", "Whether a spike may enter the stopper.", { sourced: true }),
  vacuum: fact("<answer:yes|no>", "Whether the vial is packed under vacuum."),
  premixed: fact("<answer:yes|no>", "Ready to use: nothing more is added to it."),
  "looks-like": fact("<stock:name>", "A product whose container is taken for this one.", { many: true }),
  invented: fact("<answer:yes>", "Marks invented figures."),
  source: fact("<source:source>", "Speaks for every fact that names no source."),
  note: fact("<text:text>", "Printed with the materials.", { many: true }),
} as const;

export const reconstituteFacts = {
  source: fact("<source:source>", "The label that says so."),
  with: fact("<volume:measure> of <fluid:name>", "What goes in.", { required: true }),
  gives: fact("[<about?:about>] <strength:strength> [as <salt?:name>]", "The strength it gives."),
  withdrawable: fact("<volume:measure>", "What can be drawn out."),
} as const;

export const lotsFacts = {
  lot: fact("<lot:text> expires <expires:date>", "A lot on the shelf and its expiry.", { many: true }),
} as const;

export const deviceKinds = [
  "syringe",
  "needle",
  "filter-needle",
  "filter-straw",
  "syringe-filter",
  "spike",
  "vented-spike",
  "transfer-device",
  "connector",
  "tubing",
  "light-cover",
  "cap",
] as const;
export type DeviceKind = (typeof deviceKinds)[number];

/** `device`: what liquid is measured with and passes through. */
export const deviceFacts = {
  kind: fact(
    "<kind:syringe|needle|filter-needle|filter-straw|syringe-filter|spike|vented-spike|transfer-device|connector|tubing|light-cover|cap>",
    "What it is.",
    { required: true },
  ),
  capacity: fact("<capacity:measure>", "Nominal capacity of a syringe."),
  graduation: fact("<interval:measure>", "Volume between two marks of the scale."),
  "scale-of": fact("<units:measure>", "Strength for which the scale is marked in units, such as 100 units/mL.", {}),
  "drop-factor": fact("<drops:measure>", "Drops in a mL that a giving set makes, such as 20 drops/mL.", {
    sourced: true,
  }),
  pore: fact("<pore:measure>", "Pore size of a filter."),
  gauge: fact("<gauge:number>", "Needle gauge."),
  "dead-space": fact("<volume:measure>", "Volume that stays in the nozzle or hub.", { sourced: true }),
  "priming-volume": fact("<volume:measure>", "What a set or tubing holds once it is filled.", { sourced: true }),
  source: fact("<source:source>", "Speaks for every fact that names no source."),
  note: fact("<text:text>", "Printed with the materials.", { many: true }),
} as const;

/** `reference`: a published source, cited by its key. */
export const referenceFacts = {
  title: fact("<text:text>", "Title of the source.", { required: true }),
  publisher: fact("<text:text>", "Who publishes it."),
  edition: fact("<text:text>", "Edition or version."),
  year: fact("<text:text>", "Year."),
  url: fact("<text:text>", "Where it can be read."),
  invented: fact("<answer:yes>", "Marks a source invented for demonstration."),
  note: fact("<text:text>", "Remarks, such as which parts were read.", { many: true }),
} as const;

/** `bands`: dose or weight bands used by several recipes. */
export const bandsFacts = {
  from: fact("<low:measure> below <high:measure> gives <given:measure>", "One band and the dose that it gives.", {
    many: true,
  }),
  source: fact("<source:source>", "Where the bands come from."),
} as const;
