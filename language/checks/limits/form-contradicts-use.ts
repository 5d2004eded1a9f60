import { isGivenAtOnce } from "../../bench/given-at-once.ts";
import type { ChoiceSlot, Spot } from "../../model/slots.ts";
import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

const bolus = (form: string): string =>
  example(
    ["    infuse-over     4 h\n", "    infuse-over     30 min\n    use             bolus\n"],
    ["form           solution-for-infusion", `form           ${form}`],
  );

export const formContradictsUse = writtenCheck<{
  at: Spot;
  form: string | undefined;
  use: ChoiceSlot<string>;
  rate?: string;
}>({
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
    if (use && given && use.choice !== "part-of-container") yield { at: given, form: undefined, use };
    if (!use || !isGivenAtOnce(recipe)) return;
    for (const { slots } of recipe.order?.all("infuse-at") ?? [])
      if (slots.rate.quantity?.unit.spelling.endsWith("/h"))
        yield { at: slots.rate, form: undefined, use, rate: slots.rate.written };
    for (const { facts } of recipe.preparations) {
      const form = facts.one("form")?.slots.form;
      const words = form?.name.split("-") ?? [];
      if (form && words.includes("infusion") && !words.includes("injection")) yield { at: form, form: form.name, use };
    }
  },
  say: ({ form, use, rate }) =>
    rate !== undefined
      ? {
          text: `The order says that it is given as a bolus, and at ${rate}, which is how an infusion runs. Take one of them out, or state the time of a slow push by \`infuse-over\`.`,
          related: [{ at: use, text: "the use" }],
        }
      : form === undefined
        ? {
            text: `\`as bolus\` says how a part of a container is given, and the order says \`use ${use.choice}\`. Write \`use bolus\`, \`use part-of-container as bolus\`, or take \`as bolus\` out.`,
          }
        : {
            text: `The preparation is ${form.replaceAll("-", " ")}, and the order says that it is given as a bolus. Write the form for injection, such as ${form.replace("infusion", "injection")}, or the use as it is given.`,
            related: [{ at: use, text: "the use" }],
          },
});
