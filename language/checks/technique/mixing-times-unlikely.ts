import type { NumberSlot, Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { hours } from "../../quantities/hours.ts";
import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { dissolvingTime, stoodIn } from "../stability/standing.ts";

const fewest = Exact.of(5);
const most = Exact.of(60);
/** Hours. Labels of powders that dissolve slowly give up to an hour. */
const longestDissolving = Exact.of(2);

const inWords = {
  few: (written: string) =>
    `Mixing ${written === "1" ? "once" : `${written} times`} leaves what was added at the port. Say at least 5, usually 10.`,
  many: (written: string) =>
    `Mixing ${written} times is more than anybody will do, or not a whole number. Say how often, usually 10.`,
  long: (written: string) =>
    `Up to ${written} is longer than a powder takes to dissolve; labels say minutes. Write the time of the label, such as 10 min.`,
};

export const mixingTimesUnlikely = recipeCheck<{ at: Spot; written: string; kind: keyof typeof inWords }>({
  name: "mixing-times-unlikely",
  family: "technique",
  severity: "warning",
  title: "A container mixed hardly at all, or more often or longer than anybody would",
  why: "Dense concentrates lie at the port until the bag has been turned over many times.",
  source:
    "Factors affecting the concentration of electrolyte infusions prepared from stock solutions (Postgrad Med J 87:83-88, 2011, abstract); the bounds of 5 and 60 times and of 2 h for dissolving are common practice",
  rows: ["technique-rules mix-dense"],
  bad: example(["inverting 10 times", "inverting 1 times"]),
  good: example(),
  *find({ run }) {
    for (const step of run.steps) {
      const { verb, slots } = step;
      const time = dissolvingTime(step);
      // Where no row lets it stand so long either, that is told.
      const isTold = () => stoodIn(run).some(({ at }) => at === time);
      if (time && hours(time.quantity)?.isAbove(longestDissolving) && !isTold())
        yield { at: time, written: time.written, kind: "long" };
      const times = verb === "mix" ? (slots as { times?: NumberSlot }).times : undefined;
      const value = times?.value;
      if (!times || !value) continue;
      const few = value.isBelow(fewest);
      if (few || value.isAbove(most) || !value.isWhole())
        yield { at: times, written: times.written, kind: few ? "few" : "many" };
    }
  },
  say: ({ written, kind }) => ({ text: inWords[kind](written) }),
  fixes: ({ at, kind }) => (kind === "long" ? [] : [{ title: "Mix 10 times", edits: [replaceText(at, "10")] }]),
});
