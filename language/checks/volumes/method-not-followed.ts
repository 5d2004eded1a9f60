import { vesselKey } from "../../bench/bench.ts";
import type { Exact } from "../../quantities/exact.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";

export const methodNotFollowed = recipeCheck({
  name: "method-not-followed",
  family: "volumes",
  severity: "error",
  title: "The steps do not do what the method says",
  why: "The same order made up by another method has another concentration.",
  source: "Section 14 - Overfills (public study cards, undated, practitioner-based methods)",
  rows: ["technique-rules additive-volume-method"],
  bad: example(["    method          add-to-bag", "    method          withdraw-first"]),
  good: example(),
  *find({ recipe, run }) {
    const method = recipe.order?.one("method");
    if (!method || run.unknown) return;
    const { choice } = method.slots.method;
    for (const vessel of run.finals) {
      const withdrawn = run.withdrawn.get(vesselKey(vessel));
      const manufactured = vessel.stock?.facts.one("fluid") !== undefined;
      const fault = broken(choice, withdrawn, manufactured);
      if (fault) yield { at: method.slots.method, choice, fault, vessel, withdrawn };
    }
  },
  say: ({ choice, fault, vessel, withdrawn }) => ({
    text: `The method is ${choice}, but ${fault.replace("NAME", vessel.name).replace("VOLUME", withdrawn ? ml(withdrawn) : "")}. Mend the steps or the method.`,
  }),
});

function broken(method: string, withdrawn: Exact | undefined, manufactured: boolean): string | undefined {
  switch (method) {
    case "add-to-bag":
      if (withdrawn) return "the steps withdraw VOLUME from NAME";
      return manufactured ? undefined : "NAME is no bag filled by its maker";
    case "build-from-empty":
      return manufactured ? "NAME is a bag filled by its maker" : undefined;
    default:
      return withdrawn ? undefined : "no step withdraws anything from NAME";
  }
}
