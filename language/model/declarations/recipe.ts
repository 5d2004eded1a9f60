/** `recipe` and its blocks. */
import { fact } from "../facts.ts";

export const recipeFacts = {
  title: fact("<text:text>", "What the preparation is called.", { required: true }),
  note: fact("<text:text>", "Clinical words that are printed and approved with the recipe.", { many: true }),
  revision: fact("<number:number>", "Kept in the record beside the recipe, not here."),
} as const;

export const orderFacts = {
  drug: fact("<drug:name> [as <salt?:name>]", "The drug ordered."),
  additive: fact(
    "<drug:name> <dose:measure> [of <ion?:name>] [as <salt?:name>] per (<time?:measure> | <container?:name>)",
    "One of several drugs in the same container, with its dose.",
    { many: true },
  ),
  target: fact(
    "<ion:name> <dose:measure> per (<time?:measure> | <container?:name>)",
    "An amount of an ion over all its sources.",
    { many: true },
  ),
  dose: fact(
    "<dose:measure> [of <ion?:name>] [as <salt?:name>] [banded by <bands?:name>] per (<time?:measure> | <container?:name>)",
    "The dose, and what it is for: a finished container or a time.",
  ),
  concentration: fact(
    "<concentration:measure> [of <ion?:name>] [as <salt?:name>] [per <container?:name>]",
    "Ordered strength of the finished liquid, in place of a dose; in a series of dilutions that of each container.",
    { onceFor: "container" },
  ),
  round: fact(
    "dose <way:to nearest|upward to|downward to> <step:measure> [as <salt?:name>]",
    "How the calculated dose is rounded.",
  ),
  maximum: fact("dose <limit:measure> [as <salt?:name>]", "Cap of the dose, applied after rounding."),
  minimum: fact("dose <limit:measure> [as <salt?:name>]", "Floor of the dose, applied after rounding."),
  diluent: fact(
    "<fluid:name> [<volume?:measure>]",
    "The fluid that the drug goes into; of several, each with its volume, but for one that makes up to `final-volume` or `diluent-volume`.",
    {
      many: true,
    },
  ),
  "diluent-volume": fact(
    "<volume:measure>",
    "Labelled volume of diluent used; of what is built from empty, the diluent that goes in.",
  ),
  "final-volume": fact(
    "<volume:measure> [line <line?:included|excluded>] [per <container?:name>]",
    "Volume of the finished preparation, and whether what its filled line holds counts in it; in a series that of each container.",
    { onceFor: "container" },
  ),
  method: fact(
    "<method:add-to-bag|withdraw-first|withdraw-first-with-overfill|build-from-empty|undiluted>",
    "How the container is made up.",
  ),
  makes: fact("<count:number> x <what:name>", "How many finished containers one run makes."),
  overage: fact("<volume:measure>", "Extra volume prepared for losses."),
  route: fact("<route:name>", "How it is given.", { required: true }),
  access: fact("<access:peripheral|central>", "The vein it is given by."),
  use: fact(
    "<use:bolus|infusion|part-of-container|titrated> [as <given?:bolus>]",
    "How the container is used; a part of it that is given at once is given `as bolus`.",
  ),
  population: fact("<who:adult|child|neonate>", "For whom."),
  "in-line-filter": fact("<pore:measure>", "Filter on the giving set that it is given through."),
  "infuse-over": fact("<time:measure>", "How long it is given over."),
  "infuse-at": fact("<rate:measure> [as <salt?:name>]", "The rate it is given at."),
  weight: fact("<range:range> [in steps of <step?:measure>]", "Body weight, or its range."),
  age: fact("<range:range> [in steps of <step?:measure>]", "Age, or its range."),
  "body-surface": fact("<range:range> [in steps of <step?:measure>]", "Body surface area, or its range."),
  lumen: fact("<range:range> [in steps of <step?:measure>]", "Volume of a catheter lumen, or its range."),
  clearance: fact(
    "<range:range> [in steps of <step?:measure>]",
    "Clearance by the kidneys in mL/min, measured or estimated for this patient and not for 1.73 m2, or its range.",
  ),
} as const;

export const preparationFacts = {
  form: fact("<form:name>", "Dosage form of the finished preparation."),
  concentration: fact(
    "[<drug?:name>] <concentration:measure> [(of <ion?:name> | as <salt?:name>)]",
    "True concentration, amount over all the liquid; of an ion, over all that brings it.",
    { many: true },
  ),
  "nominal-concentration": fact(
    "[<drug?:name>] <concentration:measure> [(of <ion?:name> | as <salt?:name>)]",
    "Rounded figure as spoken; printed with the word nominal. Of an ion, over all that brings it.",
    { many: true },
  ),
  volume: fact("<volume:measure>", "Volume in the finished container."),
  "use-within": fact("<time:measure> at <place:name>", "Beyond-use limit at a storage place.", {
    many: true,
    sourced: true,
  }),
  category: fact(
    "(<number?:number> | <level?:name>)",
    "Beyond-use category of this preparation, where it is not the site's.",
  ),
  sterility: fact(
    "<process:aseptic|terminally-sterilised> [<test?:tested|untested>] [<parts?:nonsterile-components>]",
    "How it is made sterile, and whether each batch passes a sterility test; aseptic and untested where not said.",
  ),
  "filled-weight": fact("<weight:measure>", "What the filled container weighs."),
  "after-opening": fact("<time:measure>", "Life after first opening."),
  appearance: fact("<text:text>", "What the finished preparation looks like."),
  store: fact("<place:name>", "Where it is kept."),
} as const;

export const labelTextFacts = { line: fact("<text:text>", "A line of extra label text.", { many: true }) } as const;

export const intermediateFacts = {
  in: fact("<container:name>", "The container that holds it.", { required: true }),
  at: fact(
    "[<drug?:name>] <concentration:measure> [as <salt?:name>]",
    "Its concentration; of several drugs in it that of each.",
    { required: true, many: true },
  ),
  use: fact("<when:at-once|same-session>", "When it is used up.", { required: true }),
} as const;

export const exampleFacts = {
  weight: fact("<value:measure>", "Weight in this example."),
  age: fact("<value:measure>", "Age in this example."),
  "body-surface": fact("<value:measure>", "Body surface in this example."),
  lumen: fact("<value:measure>", "Lumen volume in this example."),
  clearance: fact("<value:measure>", "Clearance by the kidneys in this example."),
  expect: fact(
    "(<dose?:dose> <amount?:measure> [as <salt?:name>] | <draw?:draw> from <from?:name> <volume?:measure> | <concentration?:concentration> <strength?:measure> [as <salt?:name>] | <count?:number> x <things?:name> | <finding?:finding> <check?:name> | <none?:no finding>)",
    "What must come out.",
    { many: true },
  ),
  source: fact("<source:source>", "Where the example comes from."),
} as const;
