/** The lines of materials: their names and what each is. */
import { materialForm } from "../../model/read-recipe.ts";
import { awaitedAfter } from "../awaited.ts";
import { namesFor } from "../names-fitting.ts";
import { usualNext, usualValues } from "../vocabulary.ts";
import { type Asked, aligned, put } from "./asked.ts";

export function inMaterials(asked: Asked): void {
  const { row, recipe, peers, library } = asked;
  if (row.before.length === 0) {
    const used = new Set((recipe?.materials ?? []).filter((m) => !touches(m, asked)).map((m) => m.name.name));
    const items = new Set((recipe?.materials ?? []).filter((m) => !touches(m, asked)).map((m) => m.item.name));
    const wanted = namesFor(library, recipe, { block: "materials", word: "", slot: "item" });
    const after = [...used].at(-1) ?? "";
    const lines = [
      ...usualNext(peers, "materials", after)
        .best(6)
        .map((n) => n.text),
      "",
    ];
    const pairs: string[] = [];
    for (const word of lines) {
      const values = word === "" ? [] : usualValues(peers, "materials", word).best(6);
      // Of several items under one usual name, the one that fits this order stands first.
      values.sort((a, b) => rank(wanted, a.text) - rank(wanted, b.text) || b.weight - a.weight);
      for (const { text } of values.slice(0, 2)) if (!used.has(word)) pairs.push(`${word} ${text}`);
    }
    for (const pair of pairs) {
      const [name, ...rest] = pair.split(" ");
      const item = rest.join(" ");
      if (items.has(item) && rank(wanted, item) === 0) continue;
      if (library.declared(item).length > 0)
        put(asked, pair, "line", { insert: aligned(name!, "materials") + item, about: item });
    }
    secondOnes(asked, used);
    return;
  }
  for (const one of awaitedAfter(materialForm.start, row.before)) {
    if (one.kind !== "slot" || one.slot !== "item") continue;
    const usual = usualValues(peers, "materials", row.before[0]!.text)
      .best(8)
      .map((v) => v.text);
    const others = (recipe?.materials ?? []).filter((m) => !touches(m, asked));
    const without = recipe && { ...recipe, materials: others };
    const all = namesFor(library, without, { block: "materials", word: "", slot: "item" });
    const known = new Set(all);
    const taken = new Set(others.map((m) => m.item.name));
    // What the order asks for and is not there yet; of that, what the material is called after.
    const ordered = all.slice(0, 3).filter((name) => !taken.has(name));
    const called = row.before[0]!.text.replace(/-?\d+$/, "").toLowerCase();
    const fits = (name: string) => (ordered.includes(name) ? 1 : 0);
    const namesakes = called.length < 3 ? [] : ordered.filter((name) => name.includes(called));
    const habitual = usual.filter((u) => known.has(u)).sort((a, b) => fits(b) - fits(a));
    for (const name of [...namesakes, ...habitual, ...ordered, ...all]) put(asked, name, "name", { about: name });
  }
}

/** Last of all, one more of each device that is there already: `syringe-2` beside `syringe`, of the same kind. */
function secondOnes(asked: Asked, used: ReadonlySet<string>): void {
  for (const material of asked.recipe?.materials ?? []) {
    const item = material.item.name;
    if (touches(material, asked) || !asked.library.declared(item).some((d) => d.kind === "device")) continue;
    const stem = material.name.name.replace(/-\d+$/, "");
    let number = 2;
    while (used.has(`${stem}-${number}`)) number++;
    const name = `${stem}-${number}`;
    put(asked, `${name} ${item}`, "line", { insert: aligned(name, "materials") + item, about: item });
  }
}

/** 0 for what the order asks for, else 1. */
function rank(wanted: readonly string[], item: string): number {
  const at = wanted.indexOf(item);
  return at >= 0 && at < 3 ? 0 : 1;
}

function touches(spot: { start: number; end: number }, asked: Asked): boolean {
  return spot.start <= asked.place.at && asked.place.at <= spot.end;
}
