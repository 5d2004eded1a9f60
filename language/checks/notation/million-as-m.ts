import { chunkCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const millionAsM = chunkCheck({
  name: "million-as-m",
  family: "notation",
  severity: "error",
  title: "M written for a million",
  why: "M has meant both thousand and million.",
  source: "Error-prone abbreviations chart reproducing the ISMP list (monthly prescribing reference)",
  rows: ["error-prone-notation million-M"],
  bad: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    5 M units/mL
}
`),
  good: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    5 million units/mL
}
`),
  find: (context) => faultsNamed(context, "million-M"),
  say: sayWritten,
  fixes: writeSafe,
});
