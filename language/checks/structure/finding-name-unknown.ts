import { nearNames } from "../../model/near.ts";
import { declarationCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { didYouMean } from "../showing.ts";

const role = "  role           pharmacist\n";

/** Said of texts that no library holds; the site may name them all the same. */
const beyondTheLibrary = ["check-failed", "inventory-row-not-used", "inventory-stock-unknown"];

export const findingNameUnknown = declarationCheck({
  name: "finding-name-unknown",
  family: "structure",
  severity: "error",
  title: "The site names a finding that does not exist",
  why: "The finding that was meant keeps its usual grade, or may be silenced after all.",
  source: "common practice",
  bad: example([role, `${role}  never-silenced  dose-not-deliverd\n`]),
  good: example([role, `${role}  never-silenced  dose-not-delivered\n`]),
  *find({ declaration, checkNames }) {
    if (declaration.kind !== "site") return;
    const facts = [...declaration.facts.all("severity"), ...declaration.facts.all("never-silenced")];
    for (const { word, slots } of facts) {
      const { check } = slots;
      if (checkNames.has(check.name) || beyondTheLibrary.includes(check.name)) continue;
      yield { at: check, word, name: check.name, near: nearNames(check.name, checkNames) };
    }
  },
  say: ({ word, name, near }) => ({
    text: `\`${word}\` names \`${name}\`, and no finding is called so.${didYouMean(near)} Take the name from the finding itself.`,
  }),
  fixes: ({ at, near }) => near.map((name) => ({ title: `Write ${name}`, edits: [replaceText(at, name)] })),
});
