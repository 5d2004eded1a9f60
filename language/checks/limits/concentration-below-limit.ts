import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { circumstances, limitsText } from "./limit-row.ts";
import { breaches, strengthLike } from "./limit-rows.ts";

export const concentrationBelowLimit = recipeCheck({
  name: "concentration-below-limit",
  family: "limits",
  severity: "error",
  title: "Weaker than the drug keeps, or between two strengths that it keeps at",
  why: "Some drugs fall out when they are diluted too far, or stick to the container.",
  source: "common practice; each limit stands in the library with its own source",
  rows: [
    "limits amio-floor",
    "limits amio-central",
    "limits diazepam-floor",
    "limits digoxin-floor",
    "limits insulin-floor",
    "limits ca-inf",
  ],
  bad: example([
    "  concentration  up to 200 mg/mL for route intravenous\n",
    "  concentration  up to 10 mg/mL for route intravenous\n  concentration  from 50 mg/mL up to 200 mg/mL for route intravenous\n",
  ]),
  good: example([
    "  concentration  up to 200 mg/mL for route intravenous\n",
    "  concentration  from 20 mg/mL up to 200 mg/mL for route intravenous\n",
  ]),
  *find(context) {
    for (const breach of breaches(context, "concentration")) {
      if (breach.side === "below" || breach.side === "between") yield breach;
    }
  },
  say: ({ drug, what, vessel, now, kind, rows, side }) => ({
    text: `${what} is ${strengthLike(now, rows, kind, drug, side)} in ${vessel.name}; allowed ${circumstances(rows[0]!)} is ${limitsText(rows)}${side === "between" ? ", and nothing between" : ""}. Change the volume of diluent.`,
    related: rows.map((row) => ({ at: { start: row.start, end: row.end, chunk: drug.chunk }, text: "the limit" })),
  }),
});
