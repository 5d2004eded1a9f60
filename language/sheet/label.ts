/**
 * What the label of a finished container says. Each line names the elements of the published lists (practice/record-elements.json)
 * that it answers; a test keeps the list complete. Figures are the bench's, never typed beside it.
 */
import { baseShare } from "../bench/amounts.ts";
import { rowAt, rowsAt } from "../bench/order-rows.ts";
import type { Run } from "../bench/run.ts";
import { thingName, type Vessel } from "../bench/things.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import { Exact } from "../quantities/exact.ts";
import { isRefusal, type Quantity, showQuantity, toUnit } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import { type Content, contentsOf } from "../working/contents.ts";
import { type Giving, givingOf } from "../working/giving.ts";
import { type BeyondUse, earliest, type Preparation } from "./beyond-use.ts";
import { type CodeFacts, elementString } from "./gs1-element-string.ts";
import { drugName, fluidName, spaced, withFigure } from "./printed-names.ts";
import { figure, fixed, millilitres, type Said, written } from "./said.ts";
import type { BeyondUseRow, Label, LabelLine, RateTable } from "./sheet.ts";

export interface LabelFacts {
  run: Run;
  lookup: Lookup;
  policy: Policy;
  preparation: Preparation | undefined;
  vessel: Vessel;
  unit: number;
  of: number;
  /** How often the steps are done, one run after another, for all of these containers. */
  runs: number;
  variant: "patient" | "batch";
  number: Said | undefined;
  gtin: string | undefined;
  prepared: Said;
  limits: readonly BeyondUse[];
  rates: RateTable | undefined;
  notForUse: boolean;
  safety: string;
}

export function labelOf(facts: LabelFacts): Label {
  const lines = [
    ...who(facts),
    ...what(facts),
    ...how(facts),
    ...until(facts),
    ...warnings(facts),
    ...extra(facts),
    ...made(facts),
  ];
  // A scanner would pass a code that stands on a label marked not for use.
  return {
    lines,
    barcode: facts.notForUse ? undefined : barcode(facts),
    notForUse: facts.notForUse,
    safety: facts.safety,
  };
}

function blank(label: string, rows: readonly string[]): LabelLine {
  return { kind: "blank", label, value: fixed("", "label"), rows };
}

function line(kind: LabelLine["kind"], label: string, value: Said, ...rows: string[]): LabelLine {
  return { kind, label, value, rows };
}

function who({ run, vessel, variant, number, unit, of, runs }: LabelFacts): LabelLine[] {
  const rows = ["label-id", "napra-label-07", "my-label-07"];
  const words = variant === "batch" ? "Batch" : "Order number";
  const lines = variant === "patient" ? [blank("Patient", ["label-immediate", "my-label-08"])] : [];
  lines.push(number ? line("plain", words, number, ...rows) : blank(words, rows));
  if (of > 1) {
    // The title may say how many one run makes: beside it, `5 of 8` alone would contradict it.
    const round = runs > 1 ? `, run ${Math.ceil((unit * runs) / of)} of ${runs}` : "";
    // Of several that differ each goes by the name that the steps give it.
    const count = `${unit} of ${of}`;
    const text = run.finalNames.size > 1 ? `${thingName(vessel)} (${count} in all${round})` : `${count}${round}`;
    lines.push(line("plain", "Container", { text, from: { kind: "count", what: "labels" } }));
  }
  return lines;
}

function what(facts: LabelFacts): LabelLine[] {
  const { run, vessel, preparation, lookup } = facts;
  const where = `recipe ${run.recipe.name.name}`;
  const title = run.recipe.facts.one("title")?.slots.text.text ?? run.recipe.name.name;
  const lines = [line("name", "", written(title, where), "my-label-01", "napra-label-01")];
  if (!run.unknown) lines.push(...contents(facts));
  lines.push(...bases(facts));
  if (!run.unknown && vessel.liquid.volume.isPositive()) {
    const name = `volume ${vessel.name} ${vessel.index}`;
    const volume = volumeOf(name, vessel);
    lines.push(
      line("plain", "Volume", volume, "label-total", "my-label-03", "napra-label-01", "label-generic-ingredients"),
    );
  }
  for (const { slots } of rowsAt(preparation?.facts.all("nominal-concentration") ?? [], run)) {
    const counted = slots.salt ? ` as ${spaced(slots.salt.name)}` : slots.ion ? ` of ${spaced(slots.ion.name)}` : "";
    const words = `${slots.concentration.written}${counted} (rounded, as spoken)`;
    const text = slots.drug ? withFigure(drugName(slots.drug.name, lookup), words) : words;
    lines.push(line("plain", "Nominal", written(text, where)));
  }
  const form = preparation?.facts.one("form")?.slots.form.name;
  if (form) lines.push(line("plain", "Form", written(spaced(form), where), "label-form"));
  for (const drug of vessel.liquid.drugs) {
    const facts = lookup.find("drug", drug)?.facts;
    if (facts?.one("high-alert")?.slots.answer.choice === "yes") {
      lines.push(
        line(
          "warning",
          "",
          written(`HIGH-ALERT: ${drugName(drug, lookup)}`, `drug ${drug}`),
          "label-generic-ingredients",
        ),
      );
    }
    if (facts?.one("hazard")?.slots.answer.choice === "hazardous") {
      const said = written(`HAZARDOUS DRUG: ${drugName(drug, lookup)}`, `drug ${drug}`);
      lines.push(line("warning", "", said, "label-generic-ingredients", "napra-label-08"));
    }
  }
  return lines;
}

/** With what stands in its line, which a pump that shows the volume of its reservoir does not see. */
function volumeOf(name: string, vessel: Vessel): Said {
  const { volume } = vessel.liquid;
  const held = (isCounted: boolean) =>
    vessel.lines.reduce(
      (sum, { filled, counted }) => (filled && counted === isCounted ? sum.plus(filled) : sum),
      Exact.zero,
    );
  const [inside, beside] = [held(true), held(false)].map((each) => showQuantity(millilitres(each))) as [string, string];
  const told = [
    held(true).isPositive() ? `${inside} of it in the line` : "",
    held(false).isPositive() ? `and ${beside} in the line` : "",
  ].filter((words) => words !== "");
  const text = showQuantity(millilitres(volume));
  return figure(name, millilitres(volume), told.length > 0 ? `${text} (${told.join(", ")})` : text);
}

function contents({ run, vessel, lookup }: LabelFacts): LabelLine[] {
  return contentsOf(run, vessel).map(({ drug, amount, concentration, ion }) => {
    const name = drugName(drug, lookup);
    const own = `${showQuantity(amount)}${alsoIn(amount, concentration)}${ion ? ` of ${ion}` : ""}`;
    const text = `${own}${formsOf({ drug, amount, concentration, ion }, run)}`;
    const said = figure(`amount ${drug} ${vessel.name} ${vessel.index}`, amount, text);
    return line("strong", name, said, "label-actives", "my-label-02", "napra-label-02", "label-generic-ingredients");
  });
}

/**
 * Behind the amount, which counts the form that the drug is counted as: that form, the strength, and where the order counts another
 * one, the same in it. `15 mg as caffeine (10 mg/mL) = 30 mg as caffeine citrate (20 mg/mL)`: one of the two alone would be read as the other.
 */
function formsOf({ drug, amount, concentration, ion }: Content, run: Run): string {
  const as = run.doses.find((d) => d.drug === drug)?.as;
  const strength = `(${showQuantity(concentration)})`;
  const substance = run.setup.drugs.get(drug)?.substance;
  if (as === undefined || ion !== undefined || !substance) return ` ${strength}`;
  const share = baseShare(substance, as);
  if (isRefusal(share) || !share.isPositive() || as === substance.base) return ` as ${spaced(as)} ${strength}`;
  const inForm = ({ value, unit }: Quantity) => showQuantity({ value: value.over(share), unit });
  const other = `${inForm(amount)} as ${spaced(as)} (${inForm(concentration)})`;
  return ` as ${spaced(substance.base ?? drug)} ${strength} = ${other}`;
}

/**
 * ` = 500 mcg`, where the strength beside an amount in mg is not said in mg: the two can then be compared without counting noughts.
 * Not for grams, beside which packs say mg/mL.
 */
function alsoIn(amount: Quantity, concentration: Quantity): string {
  const above = findUnit(concentration.unit.spelling.split("/")[0] ?? "").unit;
  if (!above || above === amount.unit || /^k?g$/.test(amount.unit.spelling)) return "";
  if (above.dimension !== amount.unit.dimension) return "";
  const same = toUnit(amount, above);
  return isRefusal(same) ? "" : ` = ${showQuantity(same)}`;
}

function bases({ run, vessel, lookup }: LabelFacts): LabelLine[] {
  const drugs = new Set(vessel.liquid.drugs);
  const names = [...vessel.liquid.fluids.keys()].filter((name) => !drugs.has(name));
  if (names.length === 0 || run.unknown) return [];
  const words = names.map((name) => fluidName(name, lookup));
  return [
    line(
      "plain",
      "In",
      written(words.join(", "), `fluid ${names.join(", ")}`),
      "napra-label-03",
      "label-generic-ingredients",
    ),
  ];
}

function how({ run, rates, preparation, vessel }: LabelFacts): LabelLine[] {
  const where = `recipe ${run.recipe.name.name}`;
  const { order } = run.recipe;
  const route = order?.one("route")?.slots.route.name;
  const access = rowAt(order?.all("access"), run)?.slots.access.choice;
  const lines: LabelLine[] = [];
  if (route) {
    const text = [spaced(route), access && `${access} vein`].filter(Boolean).join(", ");
    lines.push(
      line("plain", "Route", written(text, where), "label-route", "napra-label-06", "label-generic-ingredients"),
    );
  }
  const filter = order?.one("in-line-filter")?.slots.pore.written;
  if (filter)
    lines.push(line("warning", "", written(`Give through an in-line filter of ${filter}`, where), "napra-label-08"));
  const over = rowAt(order?.all("infuse-over"), run)?.slots.time.written;
  const rate = rates?.rows.length === 1 || rates?.head[0] === "Drug" ? rates?.rows[0]?.at(-1) : undefined;
  if (over) lines.push(line("plain", "Give over", written(over, where), "napra-label-06"));
  if (rate) lines.push(line("plain", "Rate", rate, "napra-label-06"));
  const after = preparation?.facts.one("after-opening")?.slots.time.written;
  const doses = after ? `Multiple doses; use within ${after} of first opening` : dosesOf[givingOf(run, vessel)];
  lines.push(line("plain", "Doses", written(doses, where), "label-single-multi"));
  return lines;
}

const dosesOf: Readonly<Record<Giving, string>> = {
  "one dose": "Single dose",
  "part of it": "One patient, part of the container",
  titrated: "One patient, titrated as prescribed",
  "at a rate": "One patient, at the rate prescribed",
  boluses: "By bolus, as much as is prescribed",
};

function until({ limits }: LabelFacts): LabelLine[] {
  const rows = [
    "label-bud",
    "label-storage",
    "my-label-04",
    "my-label-06",
    "napra-label-04",
    "napra-label-05",
    "label-immediate",
    "label-generic-ingredients",
  ];
  if (limits.length === 0) return [blank("Use before", rows)];
  return limits.map(({ row, end }) =>
    end && row.end
      ? line(
          "strong",
          "Use before",
          { text: `${row.end.text} at ${row.place.text}${finished(row)}`, from: row.end.from },
          ...rows,
        )
      : blank(`Use before, at ${row.place.text}`, rows),
  );
}

function finished({ end, finish }: BeyondUseRow): string {
  if (!finish) return "";
  return `; giving finished by ${finish.text === end?.text ? "then" : finish.text}`;
}

function warnings({ run, vessel, lookup }: LabelFacts): LabelLine[] {
  const lines: LabelLine[] = [];
  for (const drug of vessel.liquid.drugs) {
    const facts = lookup.find("drug", drug)?.facts;
    const name = drugName(drug, lookup);
    const said = (text: string) => written(text, `drug ${drug}`);
    if (facts?.one("light")?.slots.need.choice === "protect-always") {
      lines.push(line("warning", "", said(`Protect from light: ${name}.`), "label-special", "my-label-04"));
    }
    // Where the order names the filter on the line, that is said already.
    if (!run.recipe.order?.one("in-line-filter")) {
      for (const { slots } of facts?.all("in-line-filter") ?? []) {
        if (!slots.never) continue;
        const finer = slots.floor ? ` finer than ${slots.floor.written}` : "";
        lines.push(line("warning", "", said(`Not through an in-line filter${finer}: ${name}`), "label-special"));
      }
    }
    for (const { slots } of facts?.all("never") ?? []) {
      lines.push(line("warning", "", said(`NEVER by the ${spaced(slots.route.name)} route: ${name}`), "label-special"));
    }
    for (const { slots } of facts?.all("never-stored") ?? []) {
      const fluid = slots.fluid?.name;
      if (fluid !== undefined && !vessel.liquid.fluids.has(fluid)) continue;
      lines.push(
        line(
          "warning",
          "",
          said(`Do not keep at ${spaced(slots.place.name)}: ${name}.`),
          "label-special",
          "label-storage",
        ),
      );
    }
  }
  return lines;
}

function extra({ run }: LabelFacts): LabelLine[] {
  const where = `recipe ${run.recipe.name.name}`;
  return (run.recipe.labelText?.all("line") ?? []).map(({ slots }) =>
    line("plain", "", written(slots.text.text, where), "label-special", "napra-label-08"),
  );
}

function made({ lookup, prepared }: LabelFacts): LabelLine[] {
  const site = lookup.site()?.facts.one("name")?.slots.text.text;
  const lines = [line("plain", "Prepared", prepared, "my-label-05", "label-generic-ingredients")];
  lines.push(blank("Prepared by", ["label-immediate"]), blank("Checked by", []));
  if (site) lines.push(line("plain", "", written(site, "site"), "napra-label-09", "label-facility"));
  return lines;
}

function barcode({ run, number, gtin, limits, unit, of }: LabelFacts): Label["barcode"] {
  const end = earliest(limits);
  const code: CodeFacts = {
    preparation: run.recipe.name.name,
    number: number?.text,
    gtin,
    end,
    unit: of > 1 ? unit : undefined,
  };
  const { text, meaning } = elementString(code);
  const said = meaning.map((words): Said => ({ text: words, from: { kind: "time", what: "bar code" } }));
  if (!number) said.push(fixed("The number written by hand is not in the bar code.", "label"));
  if (!end) said.push(fixed("The use-before time is not in the bar code.", "label"));
  return { text: { text, from: { kind: "time", what: "bar code" } }, meaning: said };
}
