import { declarationCheck } from "../check.ts";
import { withoutLine } from "../edits.ts";
import { standardAnd } from "../example.ts";

function multiDose(line: string): string {
  return standardAnd(`stock magnesium-vial {
  source        guide "magnesium"
  drug          magnesium-sulfate
  container     vial
  strength      500 mg/mL
  fill          50 mL
  doses         multiple
  preservative  benzyl-alcohol
  storage       room-temperature
${line}}
`);
}

export const openedContainerLimit = declarationCheck({
  name: "opened-container-limit",
  family: "stock",
  severity: "warning",
  title: "How long an opened container may be used is not said, or said of one that is never kept",
  why: "An opened container without a limit is used until it is empty; an opened ampoule is open to the air and is not kept at all.",
  source:
    "California Code of Regulations, Title 16, section 1751.9 Single-dose and multi-dose containers (State of California, operative 1 January 2017)",
  rows: ["technique-rules amp-discard-rest"],
  bad: multiDose(""),
  good: multiDose("  in-use        28 days at room-temperature\n"),
  *find({ declaration }) {
    if (declaration.kind !== "stock") return;
    const { facts } = declaration;
    const limit = facts.one("in-use");
    const kept = facts.one("doses");
    if (limit && facts.one("container")?.slots.kind.choice === "ampoule") yield { at: limit, limit, doses: "" };
    else if (!limit && kept && kept.slots.doses.choice !== "single")
      yield { at: kept, limit, doses: kept.slots.doses.choice };
  },
  say: ({ limit, doses }, { declaration }) => {
    const name = declaration.kind === "site" ? "" : declaration.name.name;
    if (limit)
      return {
        text: `${name} is an ampoule with an in-use limit of ${limit.slots.time.written}. What is left in an opened ampoule is discarded at once; take the line out.`,
      };
    const kind = doses === "bulk" ? "a bulk container" : "a multiple-dose container";
    return {
      text: `${name} is ${kind} without a limit after opening. Add \`in-use\` with the label's time and storage place.`,
    };
  },
  fixes: ({ limit }, { chunk }) =>
    limit ? [{ title: "Take the in-use limit out", edits: [withoutLine(chunk.text, limit)] }] : [],
});
