import type { Chunk, Drug } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isInSameFile } from "../same-file.ts";

interface Incomplete {
  at: Spot;
  drug: Drug;
  lacking: string[];
  /** Words whose lines cannot be read, which is told there. */
  unread: string[];
}

export const monographIncomplete = recipeCheck<Incomplete>({
  name: "monograph-incomplete",
  family: "record",
  severity: "warning",
  title: "The monograph of an ordered drug leaves open what the checks rest on",
  why: "What the monograph does not say is watched by nobody, and a clean report would look as if it had been.",
  source: "common practice",
  bad: example(["  hazard         not-hazardous\n", ""]),
  good: example(),
  *find({ recipe, run, chunk }) {
    const order = recipe.order;
    if (!order) return;
    for (const { slots } of [...order.all("drug"), ...order.all("additive")]) {
      const drug = run.setup.drugs.get(slots.drug.name);
      if (!drug) continue;
      const { lacking, unread } = lackingIn(drug, chunk);
      if (lacking.length + unread.length > 0) yield { at: slots.drug, drug, lacking, unread };
    }
  },
  say: ({ drug, lacking, unread }) => ({
    text: [
      ...(unread.length > 0
        ? [
            `What the monograph of ${drug.name.name} says of ${unread.join(", ")} cannot be read, so that was not watched. Mend it there.`,
          ]
        : []),
      ...(lacking.length > 0
        ? [
            `The monograph of ${drug.name.name} does not state ${lacking.join(", ")}, so that was not watched. State what is known with its source; what has no limit is written \`any\`.`,
          ]
        : []),
    ].join(" "),
    related: [{ at: { start: drug.name.start, end: drug.name.end, chunk: drug.chunk }, text: "the monograph" }],
  }),
});

const wanted = [
  ["high-alert", "`high-alert` yes or no"],
  ["hazard", "`hazard`"],
  ["light", "`light`"],
  ["dose", "a `dose` window"],
  ["concentration", "a limit of `concentration`"],
] as const;

/** Every line of it that cannot be read counts, an `incompatible` as much as a `light`; a word spelt wrong is such a line. */
function lackingIn({ facts, stable, chunk }: Drug, own: Chunk): Pick<Incomplete, "lacking" | "unread"> {
  const lines = new Set([facts, ...stable].flatMap(({ unread }) => [...unread]));
  return {
    lacking: wanted.filter(([word]) => !facts.one(word) && !facts.isUnread(word)).map(([, said]) => said),
    unread: isInSameFile(chunk, own) ? [] : [...lines].map((word) => (word === "" ? "a line" : `\`${word}\``)),
  };
}
