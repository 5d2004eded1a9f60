import { planOf } from "../../bench/plan.ts";
import { nearNames } from "../../model/near.ts";
import type { NameSlot } from "../../model/slots.ts";
import { writtenCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { didYouMean, oneOf } from "../showing.ts";

const inspected = "    inspect bag\n";

export const roleUnknown = writtenCheck<{ at: NameSlot; roles: readonly string[] }>({
  name: "role-unknown",
  family: "structure",
  severity: "warning",
  title: "A check by a role that the site does not name",
  why: "The sheet asks for a signature by a role that nobody holds, or that may not check here.",
  source: "common practice",
  bad: example([inspected, `${inspected}    check by pharmcist\n`]),
  good: example([inspected, `${inspected}    check by pharmacist\n`]),
  *find({ recipe, policy: { roles } }) {
    for (const { slots } of planOf(recipe).steps) {
      const at = (slots as { role?: NameSlot }).role;
      if (at && !roles.includes(at.name)) yield { at, roles };
    }
  },
  say: ({ at, roles }) => {
    const near = nearNames(at.name, roles);
    const known = near.length > 0 ? didYouMean(near) : ` Those who may check here: ${oneOf(roles)}.`;
    return {
      text: `\`${at.name}\` is no role of the site.${known} Name one of them, or add \`role ${at.name}\` to the site.`,
    };
  },
  fixes: ({ at, roles }) =>
    nearNames(at.name, roles).map((name) => ({ title: `Write ${name}`, edits: [replaceText(at, name)] })),
});
