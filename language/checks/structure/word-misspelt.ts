import type { Fact } from "../../model/facts.ts";
import { nearNames } from "../../model/near.ts";
import type { NameSlot } from "../../model/slots.ts";
import { formsAlike, substancesAlike, usualMaterials, usualPlaces } from "../../model/usual-words.ts";
import { declarationCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { routesAlike } from "../limits/route-words.ts";
import { didYouMean } from "../showing.ts";

/** Slots whose names are declared nowhere, and what they name. `what` is one only in `contains`. */
const slotKinds = {
  route: "route",
  place: "place",
  material: "material",
  ion: "ion",
  one: "ion",
  other: "ion",
  form: "form",
} as const;
const namedSlots = Object.entries(slotKinds);
type Kind = (typeof slotKinds)[keyof typeof slotKinds] | "substance";

interface Misspelt {
  at: NameSlot;
  kind: Kind;
  near: readonly string[];
}

const light = "  light          not-sensitive\n";

export const wordMisspelt = declarationCheck<Misspelt>({
  name: "word-misspelt",
  family: "structure",
  severity: "error",
  title: "A route, storage place, material, ion or dosage form whose name is a slip away from a common one",
  why: "These names are declared nowhere: a ban or a limit under a name that nobody else writes holds for nothing, without a sound.",
  source: "common practice",
  bad: example([light, `${light}  never          intratecal\n`]),
  good: example([light, `${light}  never          intrathecal\n`]),
  *find({ declaration }) {
    const blocks =
      declaration.kind === "recipe"
        ? [declaration.order, ...declaration.preparations.map(({ facts }) => facts)]
        : declaration.kind === "drug"
          ? [declaration.facts, ...declaration.stable]
          : [declaration.facts];
    for (const facts of blocks) {
      for (const fact of facts?.every() ?? []) {
        for (const [at, kind] of namesIn(fact)) {
          const near = alike(kind, at.name);
          if (near.length > 0) yield { at, kind, near };
        }
      }
    }
  },
  say: ({ at, kind, near }) => ({
    text: `\`${at.name}\` is no name of ${kind === "ion" ? "an" : "a"} ${kind === "form" ? "dosage form" : kind} in common use.${didYouMean(near)} What is written by another name is laid against nothing.`,
  }),
  fixes: ({ at, near }) => near.map((name) => ({ title: `Write ${name}`, edits: [replaceText(at, name)] })),
});

function* namesIn({ word, slots }: Fact): Iterable<[NameSlot, Kind]> {
  const named = slots as Readonly<Record<string, Partial<NameSlot> | undefined>>;
  for (const [slot, kind] of namedSlots)
    if (typeof named[slot]?.name === "string") yield [named[slot] as NameSlot, kind];
  if (word === "contains" && typeof named.what?.name === "string") yield [named.what as NameSlot, "substance"];
}

function alike(kind: Kind, name: string): readonly string[] {
  if (kind === "route") return routesAlike(name);
  if (kind === "form") return formsAlike(name);
  if (kind === "ion" || kind === "substance") return substancesAlike(name);
  const usual = kind === "place" ? usualPlaces : usualMaterials;
  // `fridge-2` is one of several.
  return name.length < 4 || /\d/.test(name) || usual.includes(name) ? [] : nearNames(name, usual);
}
