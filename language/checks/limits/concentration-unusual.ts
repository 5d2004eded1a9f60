import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import { example } from "../example.ts";
import { circumstances, limitsText } from "./limit-row.ts";
import { breaches, strengthLike } from "./limit-rows.ts";

const hard = "  concentration  up to 200 mg/mL for route intravenous\n";

export const concentrationUnusual = recipeCheck({
  name: "concentration-unusual",
  family: "limits",
  severity: "warning",
  title: "Another strength than the usual ones",
  why: "Pumps and people are set for the usual strengths; another one is misread as one of them.",
  source: "common practice; each usual range stands in the library with its own source",
  bad: example([hard, `${hard}  usual-concentration  from 38 mg/mL up to 42 mg/mL for route intravenous\n`]),
  good: example([hard, `${hard}  usual-concentration  from 36 mg/mL up to 42 mg/mL for route intravenous\n`]),
  *find(context) {
    // What is told as an error already; where that is silenced or graded otherwise, this is all that is left to tell.
    const broken = breaches(context, "concentration")
      .filter(
        ({ side }) => side !== "unknown" && isTold(`concentration-${side === "above" ? side : "below"}-limit`, context),
      )
      .map((b) => `${b.vessel.name} ${b.what}`);
    for (const breach of breaches(context, "usual-concentration")) {
      if (breach.side !== "unknown" && !broken.includes(`${breach.vessel.name} ${breach.what}`)) yield breach;
    }
  },
  say: ({ drug, what, vessel, now, kind, rows }) => ({
    text: `${what} is ${strengthLike(now, rows, kind, drug)} in ${vessel.name}; usual ${circumstances(rows[0]!)} is ${limitsText(rows)}. Use a usual strength, or give the reason in a deviation.`,
    related: rows.map((row) => ({ at: { start: row.start, end: row.end, chunk: drug.chunk }, text: "usual" })),
  }),
});
