import { makingOf, policyLimits, siteEdition, type UseLimit } from "../../bench/beyond-use.ts";
import { isLongerTime } from "../../bench/stable-rows.ts";
import type { MeasureSlot, NameSlot, Spot } from "../../model/slots.ts";
import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

interface NotCompared {
  at: Spot;
  stated: { time: MeasureSlot; place: NameSlot };
  /** The recalled limit that it goes beyond; undefined where there is none for this place. */
  recalled: UseLimit | undefined;
  open: readonly string[];
}

const place = "room-temperature";

export const useWithinNotCompared = writtenCheck<NotCompared>({
  name: "use-within-not-compared",
  family: "stability",
  severity: "note",
  title: "A beyond-use limit that no row of the site's policy could be laid against",
  why: "What was not compared must not look as if it had been found in order.",
  source: "common practice",
  bad: example(
    [`    at             ${place}\n`, "    at             cellar\n"],
    [`24 h at ${place}`, "24 h at cellar"],
  ),
  good: example(),
  *find({ recipe, policy }) {
    const edition = siteEdition(policy);
    // Where the site names no table, or a category that is not known, that is told once, by beyond-use-not-known.
    if (!edition || edition.rows.length === 0) return;
    for (const preparation of recipe.preparations) {
      const { category } = makingOf(recipe, preparation.name.name, policy);
      if (edition.categories.length > 0 && (category === undefined || !edition.categories.includes(category))) continue;
      for (const stated of preparation.facts.all("use-within")) {
        const { time, place } = stated.slots;
        const open: string[] = [];
        const limit = policyLimits(recipe, preparation.name.name, place.name, policy, open).find((l) => l.limits);
        const isBeyond = limit?.footing === "recalled" && (!limit.time || isLongerTime(time.quantity, limit.time));
        if (limit && !isBeyond) continue;
        yield { at: stated, stated: stated.slots, recalled: limit, open };
      }
    }
  },
  say: ({ stated, recalled, open }) => ({
    text: recalled
      ? `Use within ${stated.time.written} at ${stated.place.name}; ${recalled.name} is remembered to allow ${recalled.written} there, and that figure was not seen in print. Look it up, and shorten the limit if it is so.`
      : `Use within ${stated.time.written} at ${stated.place.name} was laid against no policy: ${open.join("; ")}. Name a place that the table knows (room-temperature, refrigerator, freezer), or look the limit up.`,
  }),
});
