import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { circumstances, limitsText } from "./limit-row.ts";
import { breaches, isUndiluted, strengthLike } from "./limit-rows.ts";

export const concentrationAboveLimit = recipeCheck({
  name: "concentration-above-limit",
  family: "limits",
  severity: "error",
  title: "Stronger than the drug may be given by this route",
  why: "Too strong a solution damages the vein, or the heart.",
  source: "common practice; each limit stands in the library with its own source",
  rows: [
    "limits k-periph-40",
    "limits k-periph-80",
    "limits k-max",
    "limits mg-max",
    "limits vanc-conc",
    "limits amio-periph",
    "limits ca-bolus",
  ],
  bad: example([
    "  concentration  up to 200 mg/mL for route intravenous\n",
    "  concentration  up to 20 mg/mL for route intravenous\n",
  ]),
  good: example(),
  *find(context) {
    for (const breach of breaches(context, "concentration")) {
      if (breach.side === "above" && !isUndiluted(breach.vessel, context.run)) yield breach;
    }
  },
  say: ({ drug, what, vessel, now, kind, rows, enough }) => ({
    text: `${what} is ${strengthLike(now, rows, kind, drug)} in ${vessel.name}; allowed ${circumstances(rows[0]!)} is ${limitsText(rows)}. ${enough ? `Dilute it to ${enough} or more` : "Dilute it more"}, or give it by another way.`,
    related: [{ at: { start: rows[0]!.start, end: rows[0]!.end, chunk: drug.chunk }, text: "the limit" }],
  }),
});
