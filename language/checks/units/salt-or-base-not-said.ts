import { libraryCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { oneOf } from "../showing.ts";
import { countedFigures, formsOf } from "./salt-forms.ts";

const morphine = (strength: string) =>
  standardAnd(`drug morphine {
  source      guide "morphine"
  name        "morphine"
  dose        from 1 mg up to 100 mg for any route
  concentration  up to 10 mg/mL for any route
  counted-as  morphine-base
  salt        morphine-sulfate-pentahydrate 758.83 mg for 570.68 mg
  hazard      not-hazardous
  high-alert  yes
  light       not-sensitive
}

stock morphine-ampoule {
  drug       morphine
  container  ampoule
  strength   ${strength}
  fill       1 mL
  doses      single
  storage    room-temperature
}
`);

export const saltOrBaseNotSaid = libraryCheck({
  name: "salt-or-base-not-said",
  family: "units",
  severity: "warning",
  title: "A mass that does not say whether it is counted as the salt or as the base",
  why: "The same figure is another dose as the salt than as the base.",
  source: "common practice",
  bad: morphine("10 mg/mL"),
  good: morphine("10 mg/mL as morphine-sulfate-pentahydrate"),
  *find({ declaration, lookup }) {
    for (const { measure, as, drug, word } of countedFigures(declaration, lookup)) {
      if (as) continue;
      const at = { start: measure.start, end: measure.end };
      yield {
        at,
        written: measure.written,
        word,
        drug: drug.name.name,
        forms: formsOf(drug),
        base: drug.facts.one("counted-as")?.slots.base.name,
      };
    }
  },
  say: ({ written, word, drug, forms, base }) => ({
    text: `The ${word} ${written} of ${drug} does not say which form it counts; it is taken ${base ? `as ${base}` : "as the base"}. Write ${oneOf(forms.map((form) => `\`as ${form}\``))}.`,
  }),
  // Which form is meant is a clinical choice: no fix is offered.
});
