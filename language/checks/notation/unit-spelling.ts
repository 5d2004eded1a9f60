import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const unitSpelling = chunkCheck({
  name: "unit-spelling",
  family: "notation",
  severity: "warning",
  title: "A unit in a short form that is not in use",
  why: "Two short forms for one unit are sooner or later taken for two units.",
  source: "from memory: published lists of error-prone notation",
  rows: [],
  bad: example(["infuse-over     4 h", "infuse-over     4 hr"]),
  good: example(),
  find: (context) => faultsNamed(context, "unit-spelling"),
  say: sayWritten,
  fixes: writeSafe,
});
