import { recipeCheck } from "../check.ts";
import { meetings, onePerPair, place, verdict } from "./meetings.ts";
import { thiamineCompatible, twoDrugs } from "./two-drugs.ts";

export const drugsIncompatible = recipeCheck({
  name: "drugs-incompatible",
  family: "stability",
  severity: "error",
  title: "Two drugs meet that must not be mixed",
  why: "A precipitate in a vein can kill, and not every loss of a drug can be seen.",
  source:
    "from memory: Calcium gluconate injection label (2.1 and incompatibilities), as one instance; common practice",
  rows: ["technique-rules calcium-bicarbonate"],
  bad: twoDrugs([thiamineCompatible, "  incompatible   magnesium-sulfate"]),
  good: twoDrugs(),
  *find({ runs }) {
    for (const run of runs) {
      for (const meeting of onePerPair(meetings(run))) {
        if (meeting.otherIsDrug && verdict(meeting, run) === "incompatible") yield { at: meeting.at, meeting, run };
      }
    }
  },
  say: ({ meeting, run }) => {
    const { drug, other } = meeting;
    const sides = [drug, run.setup.drugs.get(other)].flatMap((d) => (d ? [d] : []));
    const facts = sides.flatMap((d) =>
      d.facts
        .all("incompatible")
        .filter((f) => f.slots.what.name === other || f.slots.what.name === drug.name.name)
        .map((f) => ({ at: { start: f.start, end: f.end, chunk: d.chunk }, text: "said here" })),
    );
    return {
      text: `${drug.name.name} and ${other} come together ${place(meeting)}; they are declared incompatible. Give them from separate containers.`,
      related: facts,
    };
  },
});
