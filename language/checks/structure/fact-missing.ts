import type { Facts } from "../../model/facts.ts";
import { factTables } from "../../model/read-chunk.ts";
import type { Spot } from "../../model/slots.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";

interface Missing {
  at: Spot;
  /** All that one block lacks. */
  words: readonly string[];
  inside: string;
}

export const factMissing = declarationCheck<Missing>({
  name: "fact-missing",
  family: "structure",
  severity: "error",
  title: "A declaration that lacks a fact it cannot do without",
  why: "What is not stated cannot be checked.",
  source: "common practice; route on the label from memory: USP <797> 2023, section 13",
  rows: ["record-elements label-route", "record-elements label-facility", "record-elements napra-label-09"],
  bad: example(["    route           intravenous\n", ""], ["  rate           up to 9 g/h for route intravenous\n", ""]),
  good: example(),
  *find({ declaration }) {
    yield* missing(declaration.kind, declaration.facts, declaration.head);
    if (declaration.kind === "drug") for (const row of declaration.stable) yield* missing("stable", row, row.spot);
    if (declaration.kind === "stock" && declaration.reconstitute) {
      yield* missing("reconstitute", declaration.reconstitute, declaration.reconstitute.spot);
    }
    if (declaration.kind !== "recipe") return;
    if (declaration.order) yield* missing("order", declaration.order, declaration.order.spot);
    for (const intermediate of declaration.intermediates)
      yield* missing("intermediate", intermediate.facts, intermediate);
  },
  say: ({ words, inside }) => ({
    text: `This ${inside} states ${words.map((word) => `no \`${word}\``).join(", ")}. Add ${words.length > 1 ? "them" : "it"}.${inside === "stable" ? ifWithoutEffect : ""}`,
  }),
});

const ifWithoutEffect =
  " A study says under which conditions it holds; where its source says that one makes no difference, write `any`.";

// biome-ignore lint/suspicious/noExplicitAny: facts of every table are walked alike
function* missing(inside: string, facts: Facts<any>, at: Spot): Iterable<Missing> {
  const words = Object.entries(factTables[inside] ?? {})
    .filter(([word, def]) => def.required && !facts.one(word) && !facts.isUnread(word))
    .map(([word]) => word);
  if (words.length > 0) yield { at: { start: at.start, end: at.end }, words, inside };
}
