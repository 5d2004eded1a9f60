import { chunkCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const microSign = chunkCheck({
  name: "micro-sign",
  family: "notation",
  severity: "error",
  title: "The micro sign, or u in its place",
  why: "It has been read as m: a thousand times more.",
  source: "Error-prone abbreviations chart reproducing the ISMP list (monthly prescribing reference)",
  rows: ["error-prone-notation ug-sign"],
  bad: standardAnd(`device bag-filter {
  kind  syringe-filter
  pore  0.2 µm
}
`),
  good: standardAnd(`device bag-filter {
  kind  syringe-filter
  pore  0.2 micrometre
}
`),
  find: (context) => faultsNamed(context, "ug-sign"),
  say: sayWritten,
  fixes: writeSafe,
});
