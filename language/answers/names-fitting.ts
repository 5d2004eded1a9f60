/** Which names fit a slot, best first: stock of the ordered drug that is in date, devices that can do the work, materials by what they are. */
import { orderedDrugs } from "../bench/stray-drugs.ts";
import { kindsFitting } from "../checks/names-used.ts";
import type { Library } from "../library.ts";
import type { Declaration, Device, Material, Recipe, Stock } from "../model/declaration.ts";
import { peersOf, Tally } from "./vocabulary.ts";

export interface NameWish {
  block?: string;
  word?: string;
  slot?: string;
  verb?: string;
  kinds?: readonly Declaration["kind"][];
  material?: boolean;
  /** Names that the list already has. */
  already?: readonly string[];
}

export function namesFor(library: Library, recipe: Recipe | undefined, wish: NameWish): string[] {
  const { block = "", word = "", slot = "" } = wish;
  if (slot === "reference") return declaredNames(library, ["reference"]);
  if (slot === "role") return [...library.surroundings().policy.roles];
  if (slot === "value" && word === "by") return [...library.surroundings().policy.roles];
  if (block === "materials") return itemNames(library, recipe);
  const kinds = wish.kinds ?? kindsFitting(block, word, slot);
  if (kinds) return orderedFirst(library, recipe, kinds);
  if (slot === "input") return ["dose", "weight", "age", "body-surface", "lumen", "clearance"];
  if (wish.material || block === "steps") return materialsFor(library, recipe, wish);
  if (recipe && (slot === "container" || slot === "from" || slot === "things" || slot === "what" || slot === "on")) {
    return materialsFor(library, recipe, { ...wish, slot: slot === "container" ? "target" : slot });
  }
  return usedElsewhere(library, recipe, block, word, slot);
}

function declaredNames(library: Library, kinds: readonly Declaration["kind"][]): string[] {
  return kinds.flatMap((kind) => library.headsOf(kind).map((d) => d.name.name)).sort();
}

function orderedFirst(library: Library, recipe: Recipe | undefined, kinds: readonly Declaration["kind"][]): string[] {
  const all = declaredNames(library, kinds);
  const ordered = recipe ? orderedDrugs(recipe) : [];
  // A recipe is most often named after its drug.
  const stem = recipe?.name.name ?? "";
  const near = (name: string) => (ordered.includes(name) ? 0 : stem !== "" && shareStart(name, stem) >= 5 ? 1 : 2);
  return all.sort((a, b) => near(a) - near(b));
}

function shareStart(a: string, b: string): number {
  let same = 0;
  while (same < a.length && a[same] === b[same]) same++;
  return same;
}

/** Stock of the ordered drugs in date first, then bags of the diluent with the ordered volume first, then other stock and devices. */
function itemNames(library: Library, recipe: Recipe | undefined): string[] {
  const drugs = recipe ? orderedDrugs(recipe) : [];
  const fluid = recipe?.order?.one("diluent")?.slots.fluid.name;
  const volume = recipe?.order?.one("diluent-volume")?.slots.volume.written;
  const taken = new Set(recipe?.materials.map((m) => m.item.name));
  const rank = (stock: Stock): number => {
    const { facts } = stock;
    if (drugs.includes(facts.one("drug")?.slots.drug.name ?? "")) return expiredOnly(library, stock) ? 4 : 0;
    if (fluid === undefined || facts.one("fluid")?.slots.fluid.name !== fluid) return 5;
    return facts.one("fill")?.slots.fill.written === volume ? 1 : 3;
  };
  const stocks = (library.ofKind("stock") as readonly Stock[])
    .map((stock) => ({ name: stock.name.name, rank: rank(stock) + (taken.has(stock.name.name) ? 3 : 0) }))
    .sort((a, b) => a.rank - b.rank || (a.name < b.name ? -1 : 1));
  const devices = (library.ofKind("device") as readonly Device[]).map((d) => d.name.name);
  return [
    ...stocks.filter((s) => s.rank < 4).map((s) => s.name),
    ...devices,
    ...stocks.filter((s) => s.rank >= 4).map((s) => s.name),
  ];
}

/** All its lots are out of date on the day that counts. */
function expiredOnly(library: Library, stock: Stock): boolean {
  const { lookup, asOf } = library.surroundings();
  const today = [asOf.year, asOf.month, asOf.day].map((n) => String(n).padStart(2, "0")).join("-");
  const lots = lookup.lots(stock.name.name);
  return (
    lots.length > 0 && lots.every((lot) => (lot.expires?.text ?? "") < today.slice(0, lot.expires?.text.length ?? 0))
  );
}

const syringe = ["syringe", "prefilled-syringe"];
const sharp = [
  "needle",
  "filter-needle",
  "filter-straw",
  "spike",
  "vented-spike",
  "syringe-filter",
  "transfer-device",
  "connector",
];
const bag = ["bag", "empty-bag", "bottle", "empty-bottle", "empty-vial", "evacuated-bottle", "infusor", "cassette"];

/** What a slot of a step is most often for. */
const wanted: Readonly<Record<string, readonly string[]>> = {
  syringe,
  part: sharp,
  other: sharp,
  filter: ["syringe-filter", "filter-needle", "filter-straw"],
  bag,
  target: bag,
  vials: ["powder-vial"],
  from: ["vial", "ampoule", "powder-vial"],
  source: ["vial", "ampoule", "bag", "bottle"],
};

function materialsFor(library: Library, recipe: Recipe | undefined, wish: NameWish): string[] {
  const first = wanted[wish.slot ?? ""] ?? [];
  const already = new Set(wish.already);
  const seen = new Set<string>();
  const materials = (recipe?.materials ?? []).filter((m) => {
    if (already.has(m.name.name) || seen.has(m.name.name)) return false;
    seen.add(m.name.name);
    return true;
  });
  const rank = (material: Material) => {
    const at = first.indexOf(kindOf(library, material));
    return at < 0 ? 1 : 0;
  };
  return materials
    .map((m) => ({ name: m.name.name, rank: rank(m) }))
    .sort((a, b) => a.rank - b.rank)
    .map((m) => m.name);
}

function kindOf(library: Library, material: Material): string {
  for (const item of library.declared(material.item.name)) {
    if (item.kind === "device") return item.facts.one("kind")?.slots.kind.choice ?? "";
    if (item.kind === "stock") return item.facts.one("container")?.slots.kind.choice ?? "";
  }
  return "";
}

/** For names that are declared nowhere (places, materials of containers, routes): what the library writes in the same slot. */
function usedElsewhere(library: Library, own: Recipe | undefined, block: string, word: string, slot: string): string[] {
  const tally = new Tally();
  const see = (facts: { every(): { word: string; slots: unknown }[] } | undefined) => {
    for (const fact of facts?.every() ?? []) {
      const value =
        fact.word === word ? (fact.slots as Record<string, { name?: string } | undefined>)[slot] : undefined;
      if (value?.name) tally.add(value.name, 1);
    }
  };
  for (const kind of ["drug", "fluid", "stock", "device"] as const) {
    if (block === kind) for (const d of library.ofKind(kind)) see(d.facts as never);
  }
  for (const drug of library.ofKind("drug"))
    if (drug.kind === "drug" && block === "stable") for (const row of drug.stable) see(row as never);
  for (const { declaration: recipe } of block === "order" || block === "preparation"
    ? peersOf(library, own, "recipe")
    : []) {
    if (recipe.kind !== "recipe") continue;
    if (block === "order") see(recipe.order as never);
    if (block === "preparation") for (const p of recipe.preparations) see(p.facts as never);
  }
  return tally.best(20).map((t) => t.text);
}
