import { pointReadings } from "../../quantities/number-reading.ts";
import { clockTime } from "../../quantities/ratio.ts";
import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten } from "./figures.ts";

export const numberWithTwoReadings = chunkCheck({
  name: "number-with-two-readings",
  family: "notation",
  severity: "error",
  title: "A figure that can be read in two ways, or in none",
  why: "Nothing is computed from a figure whose size is a guess.",
  source: "from memory: published lists of error-prone notation",
  rows: [],
  bad: example([
    "  light          not-sensitive",
    "  light          not-sensitive\n  container-material  polyolefin suitable for giving over 24,00 h",
  ]),
  good: example([
    "  light          not-sensitive",
    "  light          not-sensitive\n  container-material  polyolefin suitable for giving over 24 h",
  ]),
  find: (context) => [
    ...faultsNamed(
      context,
      "comma-not-thousands",
      "point-as-thousands",
      "gap-in-number",
      "raised-point",
      "clock-or-ratio",
      "number-shape",
      "leading-zero",
    ),
    // With a safe form these are findings of their own; without one the figure has no value.
    ...faultsNamed(context, "half-tablet", "mixed-fraction", "unit-case", "ratio-single-drug").filter(
      (f) => f.safe === undefined,
    ),
  ],
  say: sayWritten,
  // Which reading is meant only the author knows; each that is likely is offered.
  fixes: ({ rule, at }, { chunk }) => {
    const figures = chunk.text.slice(at.start, at.end);
    return readings(rule, figures).map((text) => ({ title: `Write ${text}`, edits: [replaceText(at, text)] }));
  },
});

function readings(rule: string, figures: string): readonly string[] {
  switch (rule) {
    case "unit-case":
      return figures === "G" ? ["g", "gauge"] : figures === "mM" ? ["mmol/L", "mm"] : [];
    case "point-as-thousands":
      return pointReadings(figures);
    case "gap-in-number":
      return /^\d{1,3}(?:[\s'’]\d{3})+(?:\.\d+)?$/.test(figures) ? [figures.replace(/[\s'’]/g, ",")] : [];
    case "clock-or-ratio":
      return [clockTime(/^[\d:]+/.exec(figures)?.[0] ?? "") ?? ""].filter(Boolean);
    case "raised-point":
      return /^\d+[·∙]\d+$/.test(figures) ? [figures.replace(/[·∙]/, ".").replace(/\.?0+$/, "")] : [];
    case "comma-not-thousands":
      return commaAsPoint(figures);
    default:
      return [];
  }
}

/** `1,5` and `1.000,5`, as they are written where the comma is the decimal point. */
function commaAsPoint(figures: string): readonly string[] {
  const [, whole = "", decimals = ""] = /^([1-9]\d{0,2}(?:\.\d{3})*|\d{1,3}),(\d+)$/.exec(figures) ?? [];
  if (whole === "") return [];
  const kept = decimals.replace(/0+$/, "");
  return [`${whole.replaceAll(".", ",")}${kept === "" ? "" : `.${kept}`}`];
}
