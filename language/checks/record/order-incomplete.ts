import type { Declaration } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";

export const orderIncomplete = declarationCheck({
  name: "order-incomplete",
  family: "record",
  severity: "error",
  title: "An order that does not say what, how much, or in how much",
  why: "What is not ordered cannot be delivered, and nothing that the steps do is judged against it.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): identity and amount of every ingredient",
  rows: ["record-elements mfr-ingredients"],
  bad: example(["    dose            4 g per bag\n", ""]),
  good: example(),
  *find({ declaration, reading }) {
    const order = declaration.kind === "recipe" ? declaration.order : undefined;
    if (!order) return;
    // A line that cannot be read may be the one that is lacking.
    const block = reading.blocks.flatMap((b) => b.body).find((b) => b.kind === "block" && holds(b, order.spot));
    if (!block || reading.problems.some((p) => holds(block, p))) return;
    const has = (word: "drug" | "dose" | "concentration" | "diluent" | "diluent-volume" | "final-volume") =>
      order.all(word as "diluent").length > 0;
    const several = order.all("additive").length + order.all("target").length > 0;
    const lacking: string[] = [];
    const isTargetOnly = order.all("target").length > 0 && has("drug") && !has("dose") && !has("concentration");
    if (!has("drug") && !several) lacking.push("`drug` (or `additive` for each of several)");
    if (has("drug") && !has("dose") && !has("concentration")) lacking.push("`dose` (or `concentration`)");
    if (!has("drug") && (has("dose") || has("concentration")) && several) lacking.push("`drug` for its dose");
    if (has("concentration") && !has("dose") && !has("final-volume")) lacking.push("`final-volume`");
    const diluents = order.all("diluent");
    const isParted = diluents.filter((d) => !d.when).length > 1;
    const open = new Set(diluents.filter((d) => !d.slots.volume).map((d) => d.slots.fluid.name));
    // One of several makes up what the others leave.
    const isMadeUp = has("final-volume") || has("diluent-volume");
    if (isParted && open.size > (isMadeUp ? 1 : 0))
      lacking.push(
        isMadeUp
          ? "the volume behind each `diluent` but one"
          : "the volume behind each `diluent` (or `final-volume`, up to which one of them makes it)",
      );
    const hasVolume = has("diluent-volume") || has("final-volume") || diluents.every((d) => d.slots.volume);
    if (has("diluent") && !isParted && !hasVolume && !followsFromStrength(declaration)) {
      lacking.push("`diluent-volume` (or `final-volume`)");
    }
    if (!has("diluent") && has("diluent-volume")) lacking.push("`diluent`");
    if (lacking.length > 0) yield { at: order.spot, lacking, isTargetOnly };
  },
  say: ({ lacking, isTargetOnly }) => ({
    text: `This order lacks ${lacking.join(" and ")}. Add it.${isTargetOnly ? " Where `target` alone orders the ion, take the line `drug` out." : ""}`,
  }),
});

/** A syringe drawn from a dilution of a stated strength: its volume is the dose over the strength, whatever the patient weighs. */
function followsFromStrength(declaration: Declaration): boolean {
  if (declaration.kind !== "recipe" || declaration.intermediates.length === 0) return false;
  const { order, preparations } = declaration;
  const method = order?.one("method")?.slots.method.choice;
  const hasStrength =
    preparations.length > 0 && preparations.every((p) => p.facts.all("concentration").some(({ slots }) => !slots.ion));
  return method === "build-from-empty" && (order?.all("dose").length ?? 0) > 0 && hasStrength;
}

function holds(outer: Spot, inner: Spot): boolean {
  return outer.start <= inner.start && inner.end <= outer.end;
}
