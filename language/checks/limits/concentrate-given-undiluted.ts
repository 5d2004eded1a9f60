import { recipeCheck } from "../check.ts";
import { standardLibrary } from "../example.ts";
import { circumstances, limitsText } from "./limit-row.ts";
import { breaches, isUndiluted, strengthLike } from "./limit-rows.ts";

/** The standard recipe without its bag: what was drawn is what is given. */
function syringeOnly(limit: string): string {
  const head = standardLibrary
    .slice(0, standardLibrary.indexOf("recipe magnesium-4g {"))
    .replace("up to 200 mg/mL for route", `up to ${limit} for route`);
  return `${head.replace(
    "    in             sodium-chloride-0.9\n",
    "    in             any\n",
  )}recipe magnesium-syringe {
  title  "Magnesium sulfate 4 g syringe"

  order {
    drug            magnesium-sulfate
    dose            4 g per final
    route           intravenous
    access          central
    infuse-over     4 h
  }

  materials {
    mag          magnesium-ampoule
    final        syringe-10mL
    filter       filter-needle-5um
    cap          luer-cap
  }

  steps {
    check label and expiry of mag
    tap mag
    disinfect mag
    open mag
    attach filter to final
    draw 4 g from mag into final  = 8 mL
    expel air from final
    replace filter on final with cap
    inspect final
    seal final
    label final
    keep mag, filter for check
    check by pharmacist
  }

  preparation final {
    form           solution-for-infusion
    concentration  500 mg/mL
    use-within     24 h at room-temperature
    appearance     "clear, colourless, free of particles"
  }
}

device luer-cap {
  kind  cap
}
`;
}

export const concentrateGivenUndiluted = recipeCheck({
  name: "concentrate-given-undiluted",
  family: "limits",
  severity: "error",
  title: "A concentrate leaves as it came from its container",
  why: "A concentrate given undiluted has killed by stopping the heart.",
  source:
    "Potassium chloride concentrations in standard formulations (secondary page quoting the FDA label, undated): the concentrate must be diluted",
  rows: ["limits k-concentrate"],
  bad: syringeOnly("200 mg/mL"),
  good: syringeOnly("500 mg/mL"),
  *find(context) {
    for (const breach of breaches(context, "concentration")) {
      if (breach.side === "above" && isUndiluted(breach.vessel, context.run)) yield breach;
    }
  },
  say: ({ drug, vessel, now, kind, rows }) => ({
    text: `${vessel.name} holds ${drug.name.name} undiluted, ${strengthLike(now, rows, kind, drug)}; allowed ${circumstances(rows[0]!)} is ${limitsText(rows)}. Dilute it.`,
    related: [{ at: { start: rows[0]!.start, end: rows[0]!.end, chunk: drug.chunk }, text: "the limit" }],
  }),
});
