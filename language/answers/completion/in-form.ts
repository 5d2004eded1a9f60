/** What a form awaits behind the words of a line that are there already. */
import { checkByName } from "../../checks/registry.ts";
import { trailingForms } from "../../model/facts.ts";
import type { Form } from "../../model/form.ts";
import { trailingStart } from "../../model/read-facts.ts";
import { type Awaited, awaitedAfter } from "../awaited.ts";
import { formNames } from "../form-names.ts";
import { namesFor } from "../names-fitting.ts";
import { usualValues } from "../vocabulary.ts";
import { type Asked, put } from "./asked.ts";

/** What a form awaits behind the words that are there; then the words that may trail the statement. */
export function inForm(asked: Asked, form: Form, word: string, trailing: readonly string[]): void {
  const tokens = asked.row.before.slice(1);
  const cut = trailingStart(asked.row.before, trailing);
  if (cut < asked.row.before.length) {
    const rest = asked.row.before.slice(cut);
    const last = rest.map((t) => trailing.includes(t.text)).lastIndexOf(true);
    const lead = rest[last]!.text as keyof typeof trailingForms;
    offerAwaited(asked, awaitedAfter((trailingForms[lead] as Form).start, rest.slice(last)), lead);
    return;
  }
  const open = awaitedAfter(form.start, tokens);
  offerAwaited(asked, open, word);
  if (open.some((a) => a.kind === "end")) for (const lead of trailing) put(asked, lead, "word");
}

export function offerAwaited(asked: Asked, open: readonly Awaited[], word: string): void {
  for (const one of open) {
    if (one.kind === "word") put(asked, one.text, "word");
    else if (one.kind === "unit") for (const unit of unitsFor(asked, word)) put(asked, unit, "unit");
    else if (one.kind === "slot") offerSlot(asked, one, word);
  }
}

function offerSlot(asked: Asked, one: Awaited, word: string): void {
  const { library, block, recipe } = asked;
  if (one.choices) {
    for (const choice of one.choices) put(asked, choice, "value");
    return;
  }
  if (one.type !== "name" && one.type !== "names") return;
  if (word === "deviation" && one.slot === "check") {
    for (const finding of library.findings(asked.place.file))
      put(asked, finding.name, "name", { detail: checkByName.get(finding.name)?.title ?? "" });
    for (const [name, check] of checkByName) put(asked, name, "name", { detail: check.title });
    return;
  }
  const named = one.taken.drug?.[0]?.text;
  const forms = formNames(library, recipe, asked.place.declaration, { slot: one.slot, named });
  for (const form of forms ?? []) put(asked, form, "name");
  if (forms && forms.length > 0) return;
  const already = (one.taken[one.slot] ?? []).map((t) => t.text);
  for (const name of namesFor(library, recipe, { block, word, slot: one.slot, already })) {
    if (!one.further) put(asked, name, "name", { about: name });
  }
}

/** Units that the library writes at this fact, then those of the ordered dose and of volumes. */
export function unitsFor(asked: Asked, word: string): string[] {
  const units = new Set<string>();
  for (const { text } of usualValues(asked.peers, asked.block, word).best(20)) {
    for (const match of text.matchAll(/\d ([A-Za-z%][^\s,]*(?: [wv]\/[wv])?)/g)) units.add(match[1]!);
  }
  if (asked.block === "steps") {
    units.add("mL");
    const unit = asked.recipe?.order?.one("dose")?.slots.dose.unit?.text;
    if (unit) units.add(unit);
  }
  return [...units, "mL", "mg", "g", "mcg", "mmol", "mEq", "units", "mg/mL", "h", "%"].filter(
    (u, i, all) => all.indexOf(u) === i,
  );
}
