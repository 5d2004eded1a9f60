import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { withArticle } from "../showing.ts";

export const wrongKindOfThing = recipeCheck({
  name: "wrong-kind-of-thing",
  family: "technique",
  severity: "error",
  title: "A step that does not go with this thing",
  why: "The step cannot be done as written.",
  source: "common practice",
  rows: [],
  bad: example(["    mix bag by inverting 10 times", "    mix bag by inverting 10 times\n    inspect needle"]),
  good: example(),
  happening: "wrong-kind-of-thing",
  find: ({ run }) => happened(run, "wrong-kind-of-thing").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ thing, needed }) => ({
    text: `${thingName(thing)} is ${withArticle(thing.kind)}; this step needs ${needed}. Name the right thing.`,
  }),
});
