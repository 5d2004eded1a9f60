import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

const bolus = (form: string): string =>
  example(
    ["    infuse-over     4 h\n", "    infuse-over     30 min\n    use             bolus\n"],
    ["form           solution-for-infusion", `form           ${form}`],
  );

export const formContradictsUse = writtenCheck({
  name: "form-contradicts-use",
  family: "limits",
  severity: "warning",
  title: "A bolus that its own form calls an infusion",
  why: "The form stands on the label: what says that it is for infusion is hung, and what is hung is not given as single doses.",
  source: "common practice",
  bad: bolus("solution-for-infusion"),
  good: bolus("solution-for-injection"),
  *find({ recipe }) {
    const use = recipe.order?.one("use")?.slots.use;
    if (use?.choice !== "bolus") return;
    for (const { facts } of recipe.preparations) {
      const form = facts.one("form")?.slots.form;
      const words = form?.name.split("-") ?? [];
      if (form && words.includes("infusion") && !words.includes("injection")) yield { at: form, form: form.name, use };
    }
  },
  say: ({ form, use }) => ({
    text: `The preparation is ${form.replaceAll("-", " ")}, and the order says \`use bolus\`. Write the form for injection, such as ${form.replace("infusion", "injection")}, or the use as it is given.`,
    related: [{ at: use, text: "the use" }],
  }),
});
