import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const litreAsSmallL = chunkCheck({
  name: "litre-as-small-l",
  family: "notation",
  severity: "warning",
  title: "A small l written for litre",
  why: "A small l looks like the figure 1.",
  source: "Error-prone abbreviations chart reproducing the ISMP list (monthly prescribing reference)",
  rows: ["error-prone-notation litre-l", "error-prone-notation ml-lower"],
  bad: example(["fill       10 mL", "fill       10 ml"]),
  good: example(),
  find(context) {
    const found = faultsNamed(context, "litre-l", "ml-lower");
    if (found.length === 0 || context.policy.severities.get("unit-run-together") === "off") return found;
    // `100ml` is written anew as a whole, which is told of the missing blank.
    const runTogether = faultsNamed(context, "run-together-number-unit");
    return found.filter(({ at }) => !runTogether.some((r) => r.at.start <= at.start && at.start < r.at.end));
  },
  say: sayWritten,
  fixes: writeSafe,
});
