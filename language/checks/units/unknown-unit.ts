import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { figuresOf } from "../notation/figures.ts";
import { oneOf } from "../showing.ts";

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
    for (const { number, unit, unitSpot, unitFault } of figuresOf(context)) {
      if (!unitFault || !unitSpot || unitFault.text === "") continue;
      yield { at: unitSpot, number, unit, near: unitFault.near };
    }
  },
  say({ number, unit, near }) {
    if (near.length > 0) return { text: `${unit} is not known as a unit. Did you mean ${oneOf(near)}?` };
    const things = /^[a-z]+(?:-[a-z0-9]+)*$/.test(unit)
      ? ` If these are things to be counted, write ${number} x ${unit}.`
      : "";
    return {
      text: `${unit} is not known as a unit, so ${number} ${unit} is not used. Write a unit such as mg, mL or mg/mL.${things}`,
    };
  },
  fixes: ({ at, near }) => near.map((name) => ({ title: `Write ${name}`, edits: [replaceText(at, name)] })),
});
