import { chunkCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const internationalUnitsAsIu = chunkCheck({
  name: "international-units-as-iu",
  family: "notation",
  severity: "error",
  title: "IU written for international units",
  why: "IU has been read as IV or as 10.",
  source:
    "Official Do Not Use list (The Joint Commission); ISMP list of error-prone abbreviations, symbols and dose designations (Institute for Safe Medication Practices)",
  rows: ["error-prone-notation unit-IU-jc", "error-prone-notation unit-IU-ismp"],
  bad: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    100 IU/mL
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
  find: (context) => faultsNamed(context, "unit-IU-jc", "unit-IU-ismp"),
  say: sayWritten,
  fixes: writeSafe,
});
