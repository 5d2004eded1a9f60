import type { Declaration } from "../../model/declaration.ts";
import type { Facts } from "../../model/facts.ts";
import { factTables } from "../../model/read-chunk.ts";
import type { Spot } from "../../model/slots.ts";
import { declarationCheck } from "../check.ts";
import { standardAnd } from "../example.ts";

const fluid = (source: string) =>
  standardAnd(`fluid glucose-5 {
  name        "glucose 5 % w/v"
  osmolarity  278 mOsm/L${source}
  use         injection
}
`);

export const claimWithoutSource = declarationCheck({
  name: "claim-without-source",
  family: "limits",
  severity: "warning",
  title: "A figure or fact about the outside world without its source",
  why: "What nobody can look up nobody can check.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): the reference behind the date",
  rows: ["record-elements mfr-reference"],
  bad: fluid(""),
  good: fluid(`  source guide "fluids"`),
  *find({ declaration }) {
    // A recipe's own claims (its use-within) rest on the stability rows, which carry the source.
    if (declaration.kind === "recipe" || declaration.kind === "site") return;
    const table = factTables[declaration.kind] ?? {};
    const facts = declaration.facts as Facts;
    if (facts.isUnread("source")) return;
    for (const fact of facts.every()) {
      if (table[fact.word]?.sourced && !fact.source) yield { at: fact as Spot, word: fact.word };
    }
    if (facts.one("source")) return;
    for (const { block, word } of blocks(declaration)) if (!block.one("source")) yield { at: block.spot, word };
  },
  say: ({ word }, { declaration }) => ({
    text: `\`${word}\` of ${declaration.kind} ${declaration.kind === "site" ? "" : declaration.name.name} names no source. Add \`source\` with a reference and the place in it, or one for all as the first line of the block.`,
  }),
});

function blocks(declaration: Declaration): { block: Facts; word: string }[] {
  if (declaration.kind === "drug")
    return declaration.stable.map((block) => ({ block: block as unknown as Facts, word: "stable" }));
  if (declaration.kind === "stock" && declaration.reconstitute)
    return [{ block: declaration.reconstitute as unknown as Facts, word: "reconstitute" }];
  return [];
}
