import { filterKinds } from "../../bench/things.ts";
import type { DeviceKind } from "../../model/declarations/stock.ts";
import { declarationCheck } from "../check.ts";
import { standardAnd } from "../example.ts";

const straw = (pore: string) => `device narrow-straw {\n  kind  filter-straw\n${pore}}\n`;

export const filterPoreNotStated = declarationCheck({
  name: "filter-pore-not-stated",
  family: "technique",
  severity: "warning",
  title: "A filter that does not say what it holds back",
  why: "Glass needs 5 micrometre, sterility 0.2: without the pore size nobody can tell whether the filter does its work or holds back the drug.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): filter details",
  rows: ["record-elements mfr-other"],
  bad: standardAnd(straw("")),
  good: standardAnd(straw("  pore  5 micrometre\n")),
  *find({ declaration }) {
    if (declaration.kind !== "device") return;
    const kind = declaration.facts.one("kind");
    if (!kind || !filterKinds.includes(kind.slots.kind.choice as DeviceKind) || declaration.facts.one("pore")) return;
    yield { at: declaration.head, name: declaration.name.name, kind: kind.slots.kind.choice };
  },
  say: ({ name, kind }) => ({
    text: `${name} is a ${kind} and states no \`pore\`. Add its pore size, such as \`pore  5 micrometre\`.`,
  }),
});
