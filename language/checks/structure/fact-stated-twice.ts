import type { Recipe } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { problemsNamed, word } from "../problems.ts";

interface Twice {
  at: Spot;
  what: string;
  times: string;
  inside: string;
}

export const factStatedTwice = chunkCheck<Twice>({
  name: "fact-stated-twice",
  family: "structure",
  severity: "error",
  title: "A fact stated twice",
  why: "Which of the two holds would be a guess.",
  source: "common practice",
  bad: example(
    ["    infuse-over     4 h\n  }", "    infuse-over     4 h\n    infuse-over     4 h\n  }"],
    ["dose            4 g per bag", "dose            4 g per bag"],
  ),
  good: example(),
  *find({ reading }) {
    for (const { at, problem } of problemsNamed(reading, "fact-stated-twice"))
      yield {
        at,
        what: `\`${word(problem, "word")}\``,
        times: word(problem, "times"),
        inside: word(problem, "inside"),
      };
    for (const recipe of reading.declarations) if (recipe.kind === "recipe") yield* orderedTwice(recipe);
  },
  say: ({ what, times, inside }) => ({ text: `${what} is stated ${times} times in ${inside}. Keep one.` }),
});

/** A drug, or an ion over all its sources, that two lines order for the same container: one amount, or both together? */
function* orderedTwice({ order }: Recipe): Iterable<Twice> {
  for (const word of ["additive", "target"] as const) {
    const seen = new Map<string, number>();
    for (const fact of order?.all(word) ?? []) {
      if (fact.when) continue;
      const { drug, ion, container, time } = fact.slots as Partial<Record<string, { name?: string; written?: string }>>;
      const name = drug?.name ?? ion?.name ?? "";
      const key = `${name} ${drug ? (ion?.name ?? "") : ""} ${container?.name ?? ""} ${time?.written ?? ""}`;
      const times = (seen.get(key) ?? 0) + 1;
      seen.set(key, times);
      if (times > 1) yield { at: fact, what: `\`${word} ${name}\``, times: String(times), inside: "order" };
    }
  }
}
