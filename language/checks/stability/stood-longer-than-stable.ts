import { showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";
import { solutionRow } from "./once-opened.ts";
import { type Stood, stoodIn } from "./standing.ts";

const swirled = "    swirl vial until dissolved\n";
const stand = (time: string): [string, string] => [swirled, `${swirled}    wait ${time}\n`];

export const stoodLongerThanStable = recipeCheck<Stood>({
  name: "stood-longer-than-stable",
  family: "stability",
  severity: "error",
  title: "The steps let a drug stand for longer than it is known to be stable",
  why: "Its time runs from the moment it is dissolved or drawn up; the limit of the finished container does not begin anew with old solution.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): the reference behind the date",
  rows: ["record-elements mfr-reference", "beyond-use-dates bud-min-of-stability-and-table"],
  bad: powderExample(solutionRow("8 h"), stand("12 h")),
  good: powderExample(solutionRow("24 h"), stand("12 h")),
  find: ({ run }) => stoodIn(run),
  say: ({ time, drug, fact, start }) => {
    const event = start.verb === "reconstitute" ? "dissolved" : "drawn up";
    return {
      text: `${drug.name.name} is ${event} in step ${start.number} and then stands for ${showQuantity(time)} in these steps, but it is declared stable for ${fact.slots.time.written} at most. Shorten the time that it stands, or give a row with a longer study.`,
      related: [
        { at: { start: fact.start, end: fact.end, chunk: drug.chunk }, text: `stable for ${fact.slots.time.written}` },
      ],
    };
  },
});
