import { chunkCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const microunits = chunkCheck({
  name: "microunits",
  family: "notation",
  severity: "error",
  title: "Microunits, or mU that may stand for them",
  why: "A microunit is easily taken for a milliunit or a unit.",
  source: "Writing a hospital prescription (UK neonatal formulary chapter copy)",
  rows: ["error-prone-notation microunits"],
  bad: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    100 mU/mL
}
`),
  good: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    0.1 units/mL
}
`),
  find: (context) => faultsNamed(context, "microunits"),
  say: sayWritten,
  fixes: writeSafe,
});
