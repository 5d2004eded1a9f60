/**
 * What charts and monographs say in one line, and a recipe or monograph in two or otherwise: `route intravenous infusion`, `access central
 * line`, `drug amino-acids 50 g`. The line is not read; here stands what to write instead. Forms: common practice, from memory.
 */
import type { Problem } from "../../model/facts.ts";
import type { Line } from "../../syntax/tree.ts";
import { word } from "../problems.ts";
import { misfitAt } from "./misfit.ts";
import type { OrderForm } from "./order-forms.ts";

interface Row {
  /** Of the line, from the word that does not fit. */
  pattern: RegExp;
  /** What the last sentence asks for. */
  text: string;
  /** What stands in the place of the rest of the line; "" leaves it out. Undefined where several things may be meant. */
  rest?: string;
}

const ofRoute: readonly Row[] = [
  {
    pattern: /^(?:pca|pcea|patient|demand|on-demand)\b/i,
    text: "What a patient takes single doses from is said by `use titrated`. Write `route` with the route alone.",
    rest: "",
  },
  {
    pattern: /^(?:infusion|injection|bolus|push|drip|use|only)\b/i,
    text: "How it is given is said by `use`, and by `infuse-over` or `infuse-at`. Write `route` with the route alone.",
    rest: "",
  },
  {
    pattern: /^(?:via|through|by)\b/i,
    text: "The vein is a line of its own: write `access peripheral` or `access central`.",
  },
  { pattern: /^(?:and|or|,|\/|&)/, text: "An order has one route. Write the one that this recipe is made for." },
];

const ofAccess: readonly Row[] = [
  {
    pattern: /^(?:line|vein|venous|catheter|cannula|access|iv)\b/i,
    text: "Write the word for the vein alone.",
    rest: "",
  },
  {
    pattern: /^(?:picc|cvc|cvl|cvad|port|portacath|hickman|broviac|tunnelled)\b/i,
    text: "Its tip lies in a central vein: write `access central`.",
    rest: "central",
  },
  {
    pattern: /^(?:cannula|venflon|midline|long-line)\b/i,
    text: "Write `access peripheral`, if its tip lies in a vein of the arm; otherwise `access central`.",
  },
  { pattern: /^(?:and|or|,|\/|&)/, text: "Write the one that the limits must hold for; the other in a `note`." },
];

const ofMethod: readonly Row[] = [
  {
    pattern: /^(?:syringe|in-syringe|to-syringe|add-to-syringe|made-up|make-up|compound\S*|dilut\S+)\b/i,
    text: "What is made up in an empty syringe, bag or infusor is `method build-from-empty`; what is drawn up as it is, `method undiluted`.",
  },
  {
    pattern: /^(?:add|inject)(?:-to|-into)?-(?:bottle|minibag|mini-bag|infusor|cassette|vial)\b/i,
    text: "Of a bottle too it is written `method add-to-bag`.",
    rest: "add-to-bag",
  },
  {
    pattern: /^(?:draw|drawn|neat|none|as-is|ready)/i,
    text: "What is given as it comes is `method undiluted`.",
    rest: "undiluted",
  },
];

const ofDrug: readonly Row[] = [
  {
    pattern: /^[\d.]/,
    text: "The amount is a line of its own. In an order write `dose` with it and what it is `per`, and each drug more as `additive`, its name, its amount and `per`; on a product write `strength` or `content`.",
  },
  {
    pattern: /^(?:and|with|plus|,|\+|&)/,
    text: "A line names one drug. Each drug more in the same container is `additive`, its name, its amount and `per`.",
  },
];

const filterRow = (fact: string): readonly Row[] => [
  {
    pattern: /^(?:[\d.]|yes\b|needed\b|use\b)/,
    text: `Write \`${fact} required\`, and \`up to\` with the largest pore that holds back what must be held back, such as \`${fact} required up to 1.2 micrometre\`.`,
  },
  {
    pattern: /^(?:no|none|not|avoid)\b/,
    text: `Write \`${fact} never\`, and \`below\` with the pore where a coarser one may be used.`,
  },
];

const ofWiping: readonly Row[] = [
  { pattern: /^(?:with|using)\b/, text: "It is done with sterile 70 % alcohol. Leave the rest out.", rest: "" },
];

const ofLooking: readonly Row[] = [
  {
    pattern: /^(?:for|against|and)\b/,
    text: "What is looked for is not part of the step. Leave it out, or write it as a `note`.",
  },
];

const tables: Readonly<Record<string, readonly Row[]>> = {
  route: ofRoute,
  access: ofAccess,
  method: ofMethod,
  drug: ofDrug,
  filter: [
    {
      pattern: /^.*\b(?:in-line|inline|line)\b/,
      text: "A filter on the line to the patient is a fact of its own: `in-line-filter required up to` its pore; `filter` is the one that is drawn or pushed through.",
    },
    ...filterRow("filter"),
  ],
  "in-line-filter": filterRow("in-line-filter"),
  disinfect: ofWiping,
  inspect: ofLooking,
};

/** What is meant by the line, and how it is written; undefined where no row knows it. */
export function factForm(problem: Problem, line: Line | undefined): OrderForm | undefined {
  const table = tables[line?.tokens[0]?.text ?? ""];
  const at = line && table ? misfitAt(problem, line) : -1;
  if (!line || !table || at < 1 || word(problem, "found") === "") return undefined;
  const misfits = line.tokens.slice(at);
  const row = table.find(({ pattern }) => pattern.test(misfits.map((t) => t.text).join(" ")));
  if (!row) return undefined;
  if (row.rest === undefined) return { text: row.text };
  // What is left out takes the blank in front of it along.
  const start = row.rest === "" ? line.tokens[at - 1]!.end : misfits[0]!.start;
  return { text: row.text, instead: { at: { start, end: misfits.at(-1)!.end }, text: row.rest } };
}
