import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const trailingZero = chunkCheck({
  name: "trailing-zero",
  family: "notation",
  severity: "error",
  title: "A zero behind the decimal point that adds nothing",
  why: "Where the point is not seen the figure reads ten times too large.",
  source:
    "Official Do Not Use list (The Joint Commission); from memory: Safety considerations for container labels and carton labeling design (guidance) (US Food and Drug Administration)",
  rows: ["error-prone-notation trailing-zero", "error-prone-notation fda-trailing-zero"],
  bad: example(["infuse-over     4 h", "infuse-over     4.0 h"]),
  good: example(),
  find: (context) => faultsNamed(context, "trailing-zero"),
  say: sayWritten,
  fixes: writeSafe,
});
