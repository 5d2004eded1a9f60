/** `drug`: the facts of a monograph that checks need, each with its source. */
import { fact } from "../facts.ts";

export const drugFacts = {
  name: fact("<text:text>", "The drug's full generic name.", { required: true }),
  source: fact("<source:source>", "Speaks for every fact of this drug that names no source of its own."),
  invented: fact("<answer:yes>", "Marks a drug whose figures are invented for demonstration."),
  formula: fact("<text:text>", "Chemical formula; molar mass is computed from it."),
  ion: fact(
    "<ion:name> charge <charge:number> [count <count?:number>]",
    "An ion of the drug, its charge and how many in a formula unit.",
    { many: true },
  ),
  "counted-as": fact("<base:name>", "The form that strengths and doses are counted as."),
  salt: fact("<salt:name> <mass:measure> for <base:measure>", "Mass of a salt that holds a mass of the counted form.", {
    many: true,
    sourced: true,
  }),
  density: fact("<density:measure>", "Density of the liquid.", { sourced: true }),
  nature: fact(
    "<nature:solution|suspension|emulsion|protein|lipid-complex>",
    "Physical nature, which rules filtering and mixing.",
  ),
  hazard: fact("<answer:hazardous|not-hazardous>", "Whether the site handles it as a hazardous drug."),
  "high-alert": fact("<answer:yes|no>", "Whether it is on the high-alert list."),
  compatible: fact("<what:name>", "A fluid or drug that it may be mixed with.", { many: true, sourced: true }),
  incompatible: fact("<what:name>", "A fluid or drug that it must not be mixed with.", { many: true, sourced: true }),
  "added-before": fact(
    "<drug:name>",
    "A drug that must come later in the same container, with another addition or mixing between.",
    { many: true, sourced: true },
  ),
  together: fact(
    "<one:name> up to <most:measure> with <other:name> up to <limit:measure>",
    "Two ions that stay in solution together up to these strengths, judged whenever one of them is added; each row clears what lies within both.",
    { many: true, sourced: true },
  ),
  "container-material": fact(
    "<material:name> <verdict:suitable|unsuitable> [for giving over <over?:measure>]",
    "Whether a container material suits.",
    { many: true, sourced: true },
  ),
  "container-kind": fact(
    "<kind:evacuated-bottle|bag|bottle|syringe> unsuitable",
    "A kind of container that must not be used.",
    { many: true, sourced: true },
  ),
  never: fact("<route:name>", "A route by which it must never be given.", { many: true, sourced: true }),
  dose: fact(
    "<limits:bound> [(of <ion?:name> | as <salt?:name>)] [for (any route | route <route?:name>)]",
    "Window outside which a dose is surely a slip. Of an ion, over all that brings it.",
    { many: true, sourced: true },
  ),
  "dose-by-auc": fact(
    "<formula:calvert>",
    "The formula by which a dose follows from a target AUC and the clearance: `calvert` is AUC × (clearance in mL/min + 25), in mg.",
    { sourced: true },
  ),
  concentration: fact(
    "<limits:bound> [(of <ion?:name> | as <salt?:name>)] for (<any?:any route> | route <route?:name>) [access <access?:peripheral|central>] [use <use?:bolus|infusion>]",
    "Concentrations that are allowed; several rows leave the gaps between them forbidden. Of an ion, over all that brings it.",
    { many: true, sourced: true },
  ),
  "usual-concentration": fact(
    "<limits:bound> [(of <ion?:name> | as <salt?:name>)] for (<any?:any route> | route <route?:name>) [access <access?:peripheral|central>] [use <use?:bolus|infusion>]",
    "Concentrations that are usual; outside is a warning.",
    { many: true, sourced: true },
  ),
  rate: fact(
    "<limits:bound> [(of <ion?:name> | as <salt?:name>)] [for (<any?:any route> | route <route?:name>)] [access <access?:peripheral|central>] [use <use?:bolus|infusion>]",
    "Rates of giving that are allowed. Of an ion, over all that brings it.",
    { many: true, sourced: true },
  ),
  ph: fact("<range:range>", "pH of the product.", { sourced: true }),
  light: fact("<need:protect-always|protect-stock-only|not-sensitive>", "Protection from light.", { sourced: true }),
  filter: fact(
    "(<required?:required> [up to <pore?:measure>] | <never?:never> [below <floor?:measure>])",
    "Filter needed on preparation, or forbidden.",
    { many: true, sourced: true },
  ),
  "in-line-filter": fact(
    "(<required?:required> [up to <pore?:measure>] | <never?:never> [below <floor?:measure>])",
    "Filter on the giving set needed when it is given, or forbidden.",
    { many: true, sourced: true },
  ),
  mixing: fact("<how:not-shaken|any>", "How it may be mixed.", { sourced: true }),
  dense: fact("<answer:yes|no>", "Denser than the usual diluents, so that it layers unless mixed well."),
  "never-stored": fact("<place:name> [in <fluid?:name>]", "A storage place that spoils it once diluted.", {
    many: true,
    sourced: true,
  }),
  confused: fact("with <drug:name>", "A drug whose name or pack is taken for this one.", { many: true }),
  note: fact("<text:text>", "Printed with the materials.", { many: true }),
} as const;

export const stableFacts = {
  source: fact("<source:source>", "Where the study or label says so."),
  in: fact("<fluid:name>", "The fluid, or any.", { required: true }),
  at: fact("<place:name>", "The storage place, or any.", { required: true }),
  concentration: fact("<limits:bound> [as <salt?:name>]", "The concentrations that were covered, or any.", {
    required: true,
  }),
  "made-of": fact("<material:name>", "The container material, or any.", { required: true }),
  light: fact("<light:protected|any>", "Whether it was kept from light, or any.", { required: true }),
  "counted-from": fact("<event:opening|reconstitution|mixing>", "What starts the clock.", { required: true }),
  for: fact("<time:measure>", "How long.", { required: true }),
} as const;

/** `fluid`: a diluent as a substance. */
export const fluidFacts = {
  name: fact("<text:text>", "The fluid's full name.", { required: true }),
  source: fact("<source:source>", "Speaks for every fact that names no source."),
  invented: fact("<answer:yes>", "Marks invented figures."),
  contains: fact("<what:name> <amount:measure>", "What a volume of it holds.", { many: true, sourced: true }),
  osmolarity: fact("<osmolarity:measure>", "Osmolarity as the label states it.", { sourced: true }),
  ph: fact("<range:range>", "pH.", { sourced: true }),
  density: fact("<density:measure>", "Density.", { sourced: true }),
  use: fact(
    "<use:injection|irrigation|dialysis>",
    "What it may be used for; `dialysis` for what goes into the belly or the circuit of a dialysis.",
  ),
  "never-alone": fact("<answer:yes>", "Must not be given as the bulk of an infusion (plain water).", { sourced: true }),
  note: fact("<text:text>", "Printed with the materials.", { many: true }),
} as const;
