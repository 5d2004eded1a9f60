import { chunkCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const unitsAsU = chunkCheck({
  name: "units-as-u",
  family: "notation",
  severity: "error",
  title: "U written for units",
  why: "U has been read as 0, 4 or cc: ten times too much.",
  source: "Official Do Not Use list (The Joint Commission)",
  rows: ["error-prone-notation unit-U"],
  bad: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    100 U/mL
}
`),
  good: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    100 units/mL
}
`),
  find: (context) => faultsNamed(context, "unit-U"),
  say: sayWritten,
  fixes: writeSafe,
});
