import type { Run } from "../../bench/run.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isNotKnown } from "../unread-facts.ts";
import { isToldAsStranger } from "../volumes/strangers.ts";
import { type Meeting, meetings, onePerPair, place, verdict } from "./meetings.ts";

export const compatibilityNotDeclared = recipeCheck({
  name: "compatibility-not-declared",
  family: "stability",
  severity: "warning",
  title: "A drug meets a fluid or drug of which nothing is declared",
  why: "What nobody has looked up counts as unknown, not as harmless.",
  source: "common practice",
  bad: example(["  compatible     sodium-chloride-0.9\n", ""]),
  good: example(),
  *find(context) {
    const { runs } = context;
    for (const run of runs) {
      for (const meeting of onePerPair(meetings(run))) {
        if (verdict(meeting, run) === undefined && !isStranger(meeting, run) && !isUnread(meeting, run))
          yield { at: meeting.at, meeting };
      }
    }
  },
  say: ({ meeting }) => {
    const { drug, other } = meeting;
    return {
      text: `${drug.name.name} meets ${other} ${place(meeting)}, and no fact says whether they may be mixed. Look it up, then add \`compatible ${other}\` or \`incompatible ${other}\` with its source to drug ${drug.name.name}.`,
    };
  },
});

/** Either side's monograph may say so in a line that is told as unread. */
function isUnread({ drug, other, otherIsDrug }: Meeting, run: Run): boolean {
  const second = otherIsDrug ? run.setup.drugs.get(other) : undefined;
  const words = ["compatible", "incompatible"];
  return [drug, second].some((each) => words.some((word) => isNotKnown(each?.facts, word)));
}

/** A fluid that does not belong there is told as that; once it is gone the two no longer meet. */
function isStranger({ other, otherIsDrug }: Meeting, run: Run): boolean {
  return !otherIsDrug && isToldAsStranger(other, run);
}
