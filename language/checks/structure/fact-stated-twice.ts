import type { ChunkReading, Recipe } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { lineAt } from "../notation/figures.ts";
import { problemsNamed, word } from "../problems.ts";

interface Twice {
  at: Spot;
  what: string;
  times: string;
  inside: string;
  /** The container that a second dose is for, where it is another one than that of the first. */
  other?: string | undefined;
  /** One of the rows has a condition. */
  isConditional?: boolean;
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
        isConditional: word(problem, "conditional") === "yes",
        other: word(problem, "word") === "dose" ? otherContainer(reading, problem) : undefined,
      };
    for (const recipe of reading.declarations) if (recipe.kind === "recipe") yield* orderedTwice(recipe);
  },
  say: ({ what, times, inside, other, isConditional }) => ({
    text: other
      ? `${what} is stated ${times} times in ${inside}, for different containers. A recipe makes one kind of preparation: write a recipe of its own for ${other}.`
      : `${what} is stated ${times} times in ${inside}${isConditional ? ", and one holds for everybody. Keep one, or write behind each with `when` for whom it holds." : ". Keep one."}`,
  }),
});

/** `dose 20 g per main-bag` beside `dose 4 g per load-bag`. */
function otherContainer(reading: ChunkReading, at: Spot): string | undefined {
  const orders = reading.declarations.flatMap((d) => (d.kind === "recipe" && d.order ? [d.order] : []));
  const first = orders.find((order) => order.one("dose"))?.one("dose")?.slots.container?.name;
  const tokens = lineAt(reading, at)?.tokens ?? [];
  const per = tokens.findIndex((token) => token.text === "per");
  const name = per < 0 ? undefined : tokens[per + 1]?.text;
  return first !== undefined && name !== first ? name : undefined;
}

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
