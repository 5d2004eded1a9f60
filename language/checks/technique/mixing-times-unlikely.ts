import type { NumberSlot, Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";

const fewest = Exact.of(5);
const most = Exact.of(60);

export const mixingTimesUnlikely = recipeCheck<{ at: Spot; written: string; few: boolean }>({
  name: "mixing-times-unlikely",
  family: "technique",
  severity: "warning",
  title: "A container mixed hardly at all, or more often than anybody would",
  why: "Dense concentrates lie at the port until the bag has been turned over many times.",
  source:
    "Factors affecting the concentration of electrolyte infusions prepared from stock solutions (Postgrad Med J 87:83-88, 2011, abstract); the bounds of 5 and 60 times are common practice",
  rows: ["technique-rules mix-dense"],
  bad: example(["inverting 10 times", "inverting 1 times"]),
  good: example(),
  *find({ run }) {
    for (const { verb, slots } of run.steps) {
      const times = verb === "mix" ? (slots as { times?: NumberSlot }).times : undefined;
      const value = times?.value;
      if (!times || !value) continue;
      const few = value.isBelow(fewest);
      if (few || value.isAbove(most) || !value.isWhole()) yield { at: times, written: times.written, few };
    }
  },
  say: ({ written, few }) => ({
    text: few
      ? `Mixing ${written === "1" ? "once" : `${written} times`} leaves what was added at the port. Say at least 5, usually 10.`
      : `Mixing ${written} times is more than anybody will do, or not a whole number. Say how often, usually 10.`,
  }),
  fixes: ({ at }) => [{ title: "Mix 10 times", edits: [replaceText(at, "10")] }],
});
