import { isGivenAtOnce } from "../../bench/given-at-once.ts";
import type { ChoiceSlot, Spot } from "../../model/slots.ts";
import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

const bolus = (form: string): string =>
  example(
    ["    infuse-over     4 h\n", "    infuse-over     30 min\n    use             bolus\n"],
    ["form           solution-for-infusion", `form           ${form}`],
  );

export const formContradictsUse = writtenCheck<{ at: Spot; text: string; use?: ChoiceSlot<string> }>({
  name: "form-contradicts-use",
  family: "limits",
  severity: "warning",
  title: "A bolus that its own form calls an infusion",
  why: "The form stands on the label: what says that it is for infusion is hung, and what is hung is not given as single doses.",
  source: "common practice",
  bad: bolus("solution-for-infusion"),
  good: bolus("solution-for-injection"),
  *find({ recipe }) {
    const { use, given } = recipe.order?.one("use")?.slots ?? {};
    if (use && given && use.choice !== "part-of-container")
      yield {
        at: given,
        text: `\`as bolus\` says how a part of a container is given, and the order says \`use ${use.choice}\`. Write \`use bolus\`, \`use part-of-container as bolus\`, or take \`as bolus\` out.`,
      };
    if (!use || !isGivenAtOnce(recipe)) return;
    for (const { slots } of recipe.order?.all("infuse-at") ?? [])
      if (slots.rate.quantity?.unit.spelling.endsWith("/h"))
        yield {
          at: slots.rate,
          use,
          text: `The order says that it is given as a bolus, and at ${slots.rate.written}, which is how an infusion runs. Take one of them out, or state the time of a slow push by \`infuse-over\`.`,
        };
    for (const { facts } of recipe.preparations) {
      const form = facts.one("form")?.slots.form;
      const words = form?.name.split("-") ?? [];
      if (form && words.includes("infusion") && !words.includes("injection"))
        yield {
          at: form,
          use,
          text: `The preparation is ${form.name.replaceAll("-", " ")}, and the order says that it is given as a bolus. Write the form for injection, such as ${form.name.replace("infusion", "injection")}, or the use as it is given.`,
        };
    }
  },
  say: ({ text, use }) => ({ text, related: use ? [{ at: use, text: "the use" }] : [] }),
});
