import type { NameSlot } from "../../model/slots.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";

const salts: [string, string] = [
  "  light          not-sensitive",
  "  light          not-sensitive\n  counted-as     anhydrous\n  salt           heptahydrate 2.05 g for 1 g",
];

export const formStatedTwiceOtherwise = declarationCheck<{
  at: NameSlot;
  own: NameSlot;
  whole: NameSlot;
  word: string;
}>({
  name: "form-stated-twice-otherwise",
  family: "units",
  severity: "error",
  title: "One declaration counts its drug as two different forms",
  why: "The same figure is another dose as the salt than as the base.",
  source: "common practice",
  bad: example(
    salts,
    ["  drug       magnesium-sulfate\n", "  drug       magnesium-sulfate as heptahydrate\n"],
    ["strength   500 mg/mL", "strength   500 mg/mL as anhydrous"],
    ["dose            4 g per bag", "dose            4 g as anhydrous per bag"],
  ),
  good: example(
    salts,
    ["  drug       magnesium-sulfate\n", "  drug       magnesium-sulfate as anhydrous\n"],
    ["dose            4 g per bag", "dose            4 g as anhydrous per bag"],
  ),
  *find({ declaration }) {
    const facts =
      declaration.kind === "stock" ? declaration.facts : declaration.kind === "recipe" ? declaration.order : undefined;
    const whole = facts?.every().find((f) => f.word === "drug")?.slots as { salt?: NameSlot } | undefined;
    if (!facts || !whole?.salt) return;
    for (const fact of facts.every()) {
      const own = (fact.slots as { salt?: NameSlot }).salt;
      const figure = ["strength", "content", "dose", "concentration", "infuse-at"].includes(fact.word);
      if (figure && own && own.name !== whole.salt.name) yield { at: own, own, whole: whole.salt, word: fact.word };
    }
  },
  say: ({ own, whole, word }) => ({
    text: `The drug is stated as ${whole.name}, its ${spokenOf(word)} as ${own.name}; the ${spokenOf(word)} is taken as ${own.name}. Say one of them only.`,
    related: [{ at: whole, text: "the drug's form is said here" }],
  }),
});

function spokenOf(word: string): string {
  return word === "infuse-at" ? "rate" : word;
}
