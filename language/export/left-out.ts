/** What a recipe says and FHIR R4 has no element for, by name and number, so that nobody takes an export for the recipe. */
import type { Run } from "../bench/run.ts";
import { givingOf } from "../working/giving.ts";
import { isEmpty } from "./fhir-stocks.ts";
import { isRateOfOtherForm } from "./rate-form.ts";

export interface LeftOut {
  /** Stands in readable text only: a program that reads codes and figures does not see it. */
  asText: string[];
  /** Not in the export at all. */
  missing: string[];
}

export function leftOut(run: Run): LeftOut {
  const { recipe, steps, groups } = run;
  const order = recipe.order;
  const said = (words: readonly string[]) => words.filter((word) => order?.every().some((f) => f.word === word));
  const devices = [...groups.values()].filter((g) => g.item?.kind !== "stock").map((g) => g.name);
  const empties = [...groups.values()].filter((g) => g.item?.kind === "stock" && isEmpty(g.item)).map((g) => g.name);
  const asText = [
    ...said(["method", "diluent", "diluent-volume", "final-volume", "round", "minimum", "makes", "overage"]),
    ...said(["use", "population", "in-line-filter", "target", "additive", "concentration"]),
  ].map((word) => `order: ${word}`);
  for (const { facts } of recipe.preparations) {
    for (const { word } of facts.every()) if (word !== "form" && !hidden.has(word)) asText.push(`preparation: ${word}`);
  }
  if (recipe.facts.all("note").length > 0) asText.push("notes");
  if (isRateOfOtherForm(run)) asText.push("order: infuse-at, which counts a form of the drug");
  if (order?.one("dose")?.slots.bands) asText.push("order: dose bands");
  if (run.doses.some((d) => d.ion !== undefined)) asText.push("amounts that are counted as an ion");
  if (run.finals.some((vessel) => !["one dose", "part of it"].includes(givingOf(run, vessel))))
    asText.push("order: the amount in the container, which is not given as one dose");
  const done = steps.filter((s) => !s.skipped).length;
  const checks = steps.filter((s) => s.verb === "check" && typeof (s.slots as { role?: unknown }).role === "object");
  const missing = [
    counted(done, "step", "with their order, volumes and cautions"),
    counted(checks.length, "stop", "for a check, by whom and when"),
    counted(devices.length, "device", devices.join(", ")),
    counted(empties.length, "empty container", `${empties.join(", ")}, as the product that it is`),
    counted(recipe.intermediates.length, "labelled intermediate", "made on the way"),
    counted(recipe.examples.length, "worked example", "with what must come out"),
    counted(recipe.deviations.length, "deviation", "with reason, role and end"),
    counted(recipe.labelText?.all("line").length ?? 0, "label line", "in the author's own words"),
    "which product each ingredient is taken from, and how much of it is left",
    "the sources of limits and stability",
    ...[...hidden].flatMap((word) =>
      recipe.preparations.some((p) => p.facts.every().some((f) => f.word === word)) ? [`preparation: ${word}`] : [],
    ),
  ].filter((text) => text !== "");
  return { asText: [...new Set(asText)], missing };
}

/** Facts of a preparation that no text of the export repeats. */
const hidden = new Set(["category", "sterility", "filled-weight"]);

function counted(count: number, word: string, what: string): string {
  if (count === 0) return "";
  const words = count === 1 ? word : `${word}s`;
  return `${count} ${words}${what === "" ? "" : `: ${what}`}`;
}
