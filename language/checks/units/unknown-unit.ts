import { timeRunTogether } from "../../quantities/clock-time.ts";
import { chunkCheck } from "../check.ts";
import type { ChunkContext } from "../context.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { figuresOf, lineAt, linesOf } from "../notation/figures.ts";
import { isSlipOfWord } from "../notation/slip-of-word.ts";
import { problemsNamed } from "../problems.ts";
import { oneOf } from "../showing.ts";

const percentKind = /^[wv]\/[wv]$/;
const containers =
  /^(?:amps?|ampoules?|ampules?|vials?|syringes?|tablets?|tabs?|capsules?|caps?|bottles?|bags?|sachets?)$/i;

export const unknownUnit = chunkCheck({
  name: "unknown-unit",
  family: "units",
  severity: "error",
  title: "A unit that is not known",
  why: "Nothing can be computed from a figure whose unit is a guess.",
  source: "common practice",
  bad: example([
    "  light          not-sensitive",
    "  light          not-sensitive\n  container-material  polyolefin suitable for giving over 24 huors",
  ]),
  good: example([
    "  light          not-sensitive",
    "  light          not-sensitive\n  container-material  polyolefin suitable for giving over 24 h",
  ]),
  *find(context) {
    for (const { number, unit, unitSpot, unitFault, start } of figuresOf(context)) {
      if (!unitFault || !unitSpot || unitFault.text === "") continue;
      const isKind = percentKind.test(unit);
      if (isKind && isRatio(context, start)) continue;
      if (/^[^(]*\)$/.test(unit) && isMisfitBefore(context, start)) continue;
      if (isMisfitAt(context, start) || isSlipOfWord(context, unitSpot)) continue;
      const time = timeRunTogether(number, unit);
      const written = context.chunk.text.slice(start, unitSpot.end);
      const makes = lineAt(context.reading, unitSpot)?.tokens[0]?.text === "makes";
      yield { at: unitSpot, start, number, unit, written, time, makes, near: isKind ? [`% ${unit}`] : unitFault.near };
    }
  },
  say({ number, unit, written, time, makes, near }) {
    if (time !== undefined) return { text: `${written} is not used: a time has one unit. Write ${time}.` };
    if (near.length > 0) return { text: `${unit} is not known as a unit. Did you mean ${oneOf(near)}?` };
    if (unit.startsWith("‰"))
      return {
        text: `Per mille is not in use, so ${number} ${unit} is not used. Write a tenth of the figure as % w/v, or the amount per mL.`,
      };
    if (containers.test(unit) && makes)
      return {
        text: `${unit} is not a unit, so ${number} ${unit} is not used. How many are made is written \`makes ${number} x\` and the name of the container in the steps.`,
      };
    if (containers.test(unit))
      return {
        text: `${unit} is not a unit, so ${number} ${unit} is not used. Write the amount that is in it, such as mg; containers are counted in \`materials\`, as ${number} x and the name of the stock.`,
      };
    const things = /^[a-z]+(?:-[a-z0-9]+)*$/.test(unit)
      ? ` If these are things to be counted, write ${number} x ${unit}.`
      : "";
    return {
      text: `${unit} is not known as a unit, so ${number} ${unit} is not used. Write a unit such as mg, mL or mg/mL.${things}`,
    };
  },
  fixes: ({ at, start, time, near }) =>
    time === undefined
      ? near.map((name) => ({ title: `Write ${name}`, edits: [replaceText(at, name)] }))
      : [{ title: `Write ${time}`, edits: [replaceText({ start, end: at.end }, time)] }],
});

/** The figure cannot stand there, whatever its unit: `4 h 30 m`. */
function isMisfitAt({ reading }: ChunkContext, start: number): boolean {
  return problemsNamed(reading, "fact-not-understood").some(({ at }) => at.start === start);
}

/** Something in front of it on its line does not fit, and is told there: `4 g (max 8 g)`. */
function isMisfitBefore({ reading }: ChunkContext, start: number): boolean {
  const line = linesOf(reading).find((l) => l.start <= start && start <= l.end);
  const misfits = [...problemsNamed(reading, "fact-not-understood"), ...problemsNamed(reading, "step-not-understood")];
  return line !== undefined && misfits.some(({ at }) => line.start <= at.start && at.start < start);
}

/** `1 in 200 w/v` is told as a whole: by unit-missing as a strength, elsewhere where `in` does not fit. */
function isRatio(context: ChunkContext, start: number): boolean {
  const { reading, chunk, policy } = context;
  if (!/ in $/.test(chunk.text.slice(Math.max(0, start - 4), start))) return false;
  const line = linesOf(reading).find((l) => l.start <= start && start <= l.end);
  const isStrength = line?.tokens[0]?.text === "strength" && policy.severities.get("unit-missing") !== "off";
  return isStrength || isMisfitBefore(context, start);
}
