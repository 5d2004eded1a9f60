import { chunkCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { faultsNamed, sayWritten, writeSafe } from "./figures.ts";

export const thousandAsK = chunkCheck({
  name: "thousand-as-k",
  family: "notation",
  severity: "error",
  title: "K written for a thousand",
  why: "K has been taken for a thousand, for a million and for potassium.",
  source: "Error-prone abbreviations chart reproducing the ISMP list (monthly prescribing reference)",
  rows: ["error-prone-notation thousand-K"],
  bad: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    5 K units/mL
}
`),
  good: standardAnd(`device short-syringe {
  source      guide "devices"
  kind        syringe
  capacity    1 mL
  graduation  0.02 mL
  scale-of    5,000 units/mL
}
`),
  find: (context) => faultsNamed(context, "thousand-K"),
  say: sayWritten,
  fixes: writeSafe,
});
