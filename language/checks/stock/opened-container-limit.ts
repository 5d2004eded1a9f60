import type { Stock } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { hours } from "../../quantities/hours.ts";
import { declarationCheck } from "../check.ts";
import { withoutLine } from "../edits.ts";
import { standardAnd } from "../example.ts";

/**
 * Hours: no published row lets an opened container without preservative serve longer (tests/reference/practice/beyond-use-dates.json:
 * 6 h in `ca-sdv-iso5`, 12 h in `usp23-sdv-iso5`, 24 h in `ema-diluted`, the last two from memory).
 */
const longestOfSingleDose = Exact.of(24);

interface Opened {
  at: { start: number; end: number };
  fault: "ampoule" | "single" | "multiple" | "bulk" | "unpreserved";
  limit?: MeasureSlot | undefined;
}

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

export const openedContainerLimit = declarationCheck<Opened>({
  name: "opened-container-limit",
  family: "stock",
  severity: "warning",
  title: "How long an opened container may be used is not said, or said of one that is not kept so long",
  why: "An opened container without a limit is used until it is empty; an opened ampoule is open to the air and is not kept at all, and a single-dose vial holds nothing that stops germs.",
  source:
    "California Code of Regulations, Title 16, section 1751.9 Single-dose and multi-dose containers (State of California, operative 1 January 2017)",
  rows: ["technique-rules amp-discard-rest"],
  bad: multiDose(""),
  good: multiDose("  in-use        28 days at room-temperature\n"),
  *find({ declaration }) {
    if (declaration.kind !== "stock") return;
    const { facts } = declaration;
    const at = facts.one("in-use");
    const limit = at?.slots.time;
    const kept = facts.one("doses");
    const doses = kept?.slots.doses.choice;
    if (at && facts.one("container")?.slots.kind.choice === "ampoule") yield { at, fault: "ampoule", limit };
    else if (at && doses === "single" && isStoppered(declaration) && isTooLong(limit))
      yield { at, fault: "single", limit };
    else if (at && doses !== "single" && isUnpreserved(declaration) && isTooLong(limit))
      yield { at, fault: "unpreserved", limit };
    else if (!at && kept && doses && doses !== "single") yield { at: kept, fault: doses };
  },
  say: ({ limit, fault }, { declaration }) => {
    const name = declaration.kind === "site" ? "" : declaration.name.name;
    if (fault === "ampoule")
      return {
        text: `${name} is an ampoule with an in-use limit of ${limit?.written}. What is left in an opened ampoule is discarded at once; take the line out.`,
      };
    if (fault === "single")
      return {
        text: `${name} is a single-dose container with an in-use limit of ${limit?.written}. Once opened it serves for 24 h at most, however long its drug is stable. Write \`doses multiple\` if its label says so; otherwise shorten \`in-use\` or take it out, and say how long the drug is stable in a \`stable\` row.`,
      };
    if (fault === "unpreserved")
      return {
        text: `${name} holds no preservative and has an in-use limit of ${limit?.written}. Nothing stops germs in it; once opened it serves for 24 h at most. Look at its label: correct \`preservative\`, or shorten \`in-use\`.`,
      };
    const kind = fault === "bulk" ? "a bulk container" : "a multiple-dose container";
    return {
      text: `${name} is ${kind} without a limit after opening. Add \`in-use\` with the label's time and storage place.`,
    };
  },
  fixes: ({ at, limit, fault }, { chunk }) =>
    limit && fault !== "unpreserved"
      ? [{ title: "Take the in-use limit out", edits: [withoutLine(chunk.text, at)] }]
      : [],
});

function isUnpreserved(stock: Stock): boolean {
  return isStoppered(stock) && stock.facts.one("preservative")?.slots.what.name === "none";
}

/** What a needle enters through a stopper. A bag or a syringe may be said to keep after it leaves its wrap, which opens nothing. */
function isStoppered({ facts }: Stock): boolean {
  return ["vial", "powder-vial", "bottle"].includes(facts.one("container")?.slots.kind.choice ?? "");
}

function isTooLong(limit: MeasureSlot | undefined): boolean {
  return hours(limit?.quantity, 28)?.isAbove(longestOfSingleDose) ?? false;
}
