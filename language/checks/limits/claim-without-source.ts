import type { Declaration } from "../../model/declaration.ts";
import type { Facts } from "../../model/facts.ts";
import { factTables } from "../../model/read-chunk.ts";
import type { Spot } from "../../model/slots.ts";
import { libraryCheck } from "../check.ts";
import { standardAnd } from "../example.ts";

const drug = (source: string) =>
  standardAnd(`drug glycopyrronium {
  name   "glycopyrronium bromide"
  light  not-sensitive${source}
}
`);

export const claimWithoutSource = libraryCheck({
  name: "claim-without-source",
  family: "limits",
  severity: "warning",
  title: "A figure or fact about the outside world without its source",
  why: "What nobody can look up nobody can check.",
  source: "common practice",
  rows: ["record-elements mfr-reference"],
  bad: drug(""),
  good: drug(`  source guide "glycopyrronium"`),
  *find({ declaration }) {
    // A recipe's own claims (its use-within) rest on the stability rows, which carry the source.
    if (declaration.kind === "recipe" || declaration.kind === "site") return;
    const table = factTables[declaration.kind] ?? {};
    const facts = declaration.facts as Facts;
    for (const fact of facts.every()) {
      if (table[fact.word]?.sourced && !fact.source) yield { at: fact as Spot, word: fact.word };
    }
    if (facts.one("source")) return;
    for (const { block, word } of blocks(declaration)) if (!block.one("source")) yield { at: block.spot, word };
  },
  say: ({ word }, { declaration }) => ({
    text: `\`${word}\` of ${declaration.kind} ${declaration.kind === "site" ? "" : declaration.name.name} names no source. Add \`source\` with a reference and the place in it.`,
  }),
});

function blocks(declaration: Declaration): { block: Facts; word: string }[] {
  if (declaration.kind === "drug")
    return declaration.stable.map((block) => ({ block: block as unknown as Facts, word: "stable" }));
  if (declaration.kind === "stock" && declaration.reconstitute)
    return [{ block: declaration.reconstitute as unknown as Facts, word: "reconstitute" }];
  return [];
}
