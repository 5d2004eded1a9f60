import { isLongerTime } from "../../bench/stable-rows.ts";
import type { Drug } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { libraryCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { powderExample } from "../example.ts";
import { longestOf, rowsOnceOpened, type StableFor, solutionRow } from "./once-opened.ts";

const kept: [string, string] = [
  "  content    500 mg\n  doses      single\n",
  '  content    500 mg\n  doses      single\n  in-use     12 h at refrigerator  source guide "vancomycin"\n',
];

export const inUseLongerThanStability = libraryCheck<{
  at: MeasureSlot;
  drug: Drug;
  fact: StableFor;
  place: string | undefined;
}>({
  name: "in-use-longer-than-stability",
  family: "stability",
  severity: "error",
  title: "An opened product kept for longer than its drug is known to be stable",
  why: "What is left in the vial is given later, when nobody knows how much drug is left or what it has become.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): the reference behind the date",
  rows: ["record-elements mfr-reference", "beyond-use-dates bud-min-of-stability-and-table"],
  bad: powderExample(solutionRow("8 h"), kept),
  good: powderExample(solutionRow("24 h"), kept),
  *find({ declaration, lookup }) {
    if (declaration.kind !== "stock") return;
    const { time, place } = declaration.facts.one("in-use")?.slots ?? {};
    const name = declaration.facts.one("drug")?.slots.drug.name;
    const drug = time && name !== undefined ? lookup.find("drug", name) : undefined;
    if (!time || !drug) return;
    const longest = longestOf(rowsOnceOpened(declaration, drug, place?.name));
    if (longest && isLongerTime(time.quantity, longest.slots.time.quantity))
      yield { at: time, drug, fact: longest, place: place?.name };
  },
  say: ({ at, drug, fact, place }) => ({
    text: `Once opened it may be used for ${at.written}${place ? ` at ${place}` : ""}, but ${drug.name.name} is declared stable for ${fact.slots.time.written} there. Shorten the limit to ${fact.slots.time.written}, or give a row with a longer study.`,
    related: [
      { at: { start: fact.start, end: fact.end, chunk: drug.chunk }, text: `stable for ${fact.slots.time.written}` },
    ],
  }),
  fixes: ({ at, fact }) => [
    {
      title: `May be used for ${fact.slots.time.written}`,
      edits: [replaceText(at, fact.slots.time.written)],
    },
  ],
});
