import { declarationCheck } from "../check.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";

const title = '  title  "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL"\n';

export const revisionInRecipe = declarationCheck({
  name: "revision-in-recipe",
  family: "structure",
  severity: "warning",
  title: "A revision number written in the recipe itself",
  why: "A number typed by hand stays the same when the meaning changes; the record counts revisions by what the recipe says.",
  source: "common practice",
  bad: example([title, `${title}  revision  3\n`]),
  good: example(),
  *find({ declaration }) {
    if (declaration.kind !== "recipe") return;
    for (const fact of declaration.facts.all("revision")) yield { at: fact, written: fact.slots.number.written };
  },
  say: ({ written }) => ({
    text: `Revision ${written} is written in the recipe, where nothing keeps it true. Take the line out: revisions and approvals are kept in the record beside the recipe.`,
  }),
  fixes: ({ at }, { chunk }) => [{ title: "Take the revision out", edits: [withoutLine(chunk.text, at)] }],
});
