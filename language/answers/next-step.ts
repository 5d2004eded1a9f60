/**
 * The next likely step: what other recipes of the library do after steps like these, said with this recipe's own names. Where the
 * library has no recipe yet, the common order of work stands in.
 *
 * A step is learnt with roles in the place of names: `{vial drug|new}` is a vial that no step has touched yet, `{vial drug|last}` the
 * one touched last, `{vial drug|1}` the second in the list of materials, `{vial drug|all}` all of them. So the second drug of a bag is
 * worked like the first.
 */
import { orderedDrugs } from "../bench/stray-drugs.ts";
import type { Library } from "../library.ts";
import type { Material, Recipe, Step } from "../model/declaration.ts";
import { looseWord } from "../model/form-match.ts";
import { keptWith } from "../model/kept-with.ts";
import type { Token } from "../syntax/tree.ts";
import { type Peer, Tally } from "./vocabulary.ts";

/** Common order of adding a drug to a bag, for a library's first recipe. */
const fromVialLines: readonly string[] = [
  "check label and expiry of {vial drug|all} , {bag fluid|all}",
  "disinfect {vial drug|new}",
  "attach {needle|new} to {syringe|new}",
  "draw {dose} from {vial drug|last} into {syringe|last} at equal pressure",
  "expel air from {syringe|last}",
  "check by pharmacist",
];
const fromAmpouleLines: readonly string[] = [
  "check label and expiry of {ampoule drug|all} , {bag fluid|all}",
  "tap {ampoule drug|new}",
  "disinfect {ampoule drug|last}",
  "open {ampoule drug|last}",
  "attach {filter-needle|new} to {syringe|new}",
  "draw {dose} from {ampoule drug|last} into {syringe|last}",
  "expel air from {syringe|last}",
  "replace {filter-needle|last} on {syringe|last} with {needle|new}",
  "check by pharmacist",
];
const intoBag: readonly string[] = [
  "disinfect {bag fluid|last}",
  "inject {syringe|last} into {bag fluid|last}",
  "mix {bag fluid|last} by inverting 10 times",
  "inspect {bag fluid|last}",
  "seal {bag fluid|last}",
  "label {bag fluid|last}",
  "check by pharmacist",
];

/** Steps with roles in the place of names, and what each is like. */
interface General {
  lines: readonly string[];
  keys: readonly string[];
}

function general(lines: readonly string[]): General {
  return { lines, keys: lines.map(keyOf) };
}

const fromVial = general([...fromVialLines, ...intoBag]);
const fromAmpoule = general([...fromAmpouleLines, ...intoBag]);

/**
 * Lines for the step after `done` steps, likeliest first.
 * @param begun words of the step that stand already; a line is offered only where it goes on from them
 */
export function nextSteps(
  library: Library,
  recipe: Recipe,
  done: number,
  peers: readonly Peer[],
  begun: readonly Token[],
): string[] {
  const bench = new Touched(library, recipe);
  const before = recipe.steps.slice(0, done).map((step) => keyOf(generalized(step, bench)));
  const tallies = [new Tally(), new Tally(), new Tally(), new Tally()];
  const learn = ({ lines, keys }: General, weight: number) => {
    for (let i = 0; i < lines.length; i++) {
      let same = 0;
      while (same < 3 && (keys[i - 1 - same] ?? "start") === (before[done - 1 - same] ?? "start")) {
        same++;
        if (i - same < 0) break;
      }
      tallies[same]!.add(lines[i]!, weight);
    }
  };
  for (const { declaration, weight } of peers) {
    if (declaration.kind === "recipe") learn(generalSteps(library, declaration), weight);
  }
  for (const common of [fromVial, fromAmpoule]) learn(common, 0.5);
  const written = new Set(recipe.steps.slice(0, done).map((step) => withoutClaims(step.tokens).map(textOf).join(" ")));
  const found = new Set<string>();
  const verb = begun.length > 1 ? `${begun[0]!.text} ` : "";
  const offer = (fits: (line: string) => boolean, limit: number) => {
    // Where a step is begun, what came before says less than what is written: every step that begins so is looked at.
    for (const tally of tallies.slice(begun.length > 0 ? 0 : 1).reverse()) {
      let most = 8;
      for (const { text } of tally.best(Number.POSITIVE_INFINITY)) {
        if (found.size >= limit || most === 0) break;
        const line = text.startsWith(verb) && fits(text) ? instantiated(text, bench, begun) : undefined;
        if (line === undefined) continue;
        most--;
        // What is done once for each container is not offered for the same one again.
        if (!(written.has(line) && /^(check label|tap|open|attach)/.test(line))) found.add(line.replace(/ ,/g, ","));
      }
    }
  };
  // As long as a drug is untouched when another has gone in, the work goes on with it and is not finished.
  if (begun.length === 0 && bench.hasDrugLeft()) offer((line) => line.includes(" drug|new}"), 2);
  offer(() => true, 8);
  return [...found];
}

const textOf = (token: Token) => token.text;

/** Materials of a recipe by kind, and which of them the steps so far have touched. */
class Touched {
  readonly kinds = new Map<string, string>();
  readonly byKind = new Map<string, string[]>();
  private readonly drugs = new Map<string, string>();
  private readonly order = new Map<string, string[]>();

  constructor(
    private readonly library: Library,
    readonly recipe: Recipe,
  ) {
    for (const material of recipe.materials) {
      const name = material.name.name;
      if (this.kinds.has(name)) continue;
      const kind = kindOf(library, material);
      this.kinds.set(name, kind);
      this.byKind.set(kind, [...(this.byKind.get(kind) ?? []), name]);
      const drug = drugOf(library, material);
      if (drug !== undefined) this.drugs.set(name, drug);
    }
  }

  touch(name: string): void {
    const kind = this.kinds.get(name);
    if (kind === undefined) return;
    const others = (this.order.get(kind) ?? []).filter((n) => n !== name);
    this.order.set(kind, [...others, name]);
  }

  copy(): Touched {
    const made = Object.create(Touched.prototype) as Touched;
    return Object.assign(made, this, { order: new Map(this.order) });
  }

  /** Who is meant by a name, as the steps so far let it be said. */
  which(name: string): string {
    const kind = this.kinds.get(name)!;
    const touched = this.order.get(kind) ?? [];
    if (touched.at(-1) === name) return "last";
    const fresh = this.byKind.get(kind)!.find((n) => !touched.includes(n));
    return fresh === name ? "new" : String(this.byKind.get(kind)!.indexOf(name));
  }

  name(kind: string, which: string): string | undefined {
    const all = this.byKind.get(kind) ?? [];
    const touched = this.order.get(kind) ?? [];
    const fresh = all.find((n) => !touched.includes(n));
    if (which === "last") return touched.at(-1) ?? fresh;
    return which === "new" ? (fresh ?? (all.length === 1 ? all[0] : undefined)) : all[Number(which)];
  }

  /** Whether some drug has been touched and another has not. */
  hasDrugLeft(): boolean {
    const touched = [...this.drugs.keys()].filter((name) => this.order.get(this.kinds.get(name)!)?.includes(name));
    return touched.length > 0 && touched.length < this.drugs.size;
  }

  /** The amount that is ordered of what a material holds, as it is written. */
  doseFrom(name: string | undefined): string | undefined {
    const { order } = this.recipe;
    const drug = name === undefined ? undefined : this.drugs.get(name);
    const additive = order?.all("additive").find((a) => a.slots.drug.name === drug);
    return additive?.slots.dose.written ?? order?.one("dose")?.slots.dose.written;
  }

  /** The name of a drug that is not ordered here. */
  isForeign(word: string): boolean {
    const isDrug = this.library.declared(word).some((d) => d.kind === "drug");
    return isDrug && !orderedDrugs(this.recipe).includes(word);
  }

  isDose(text: string): boolean {
    const { order } = this.recipe;
    const doses = [...(order?.all("dose") ?? []), ...(order?.all("additive") ?? [])];
    return doses.some((dose) => dose.slots.dose.written === text);
  }
}

/** What a recipe's things are is asked of the library that first asks: a recipe belongs to one. */
const kept = keptWith<Recipe, { steps?: General }>(() => ({}));

function generalSteps(library: Library, recipe: Recipe): General {
  const known = kept(recipe);
  if (!known.steps) {
    const bench = new Touched(library, recipe);
    known.steps = general(recipe.steps.map((step) => generalized(step, bench)));
  }
  return known.steps;
}

function drugOf(library: Library, material: Material): string | undefined {
  for (const item of library.declared(material.item.name))
    if (item.kind === "stock") return item.facts.one("drug")?.slots.drug.name;
  return undefined;
}

function kindOf(library: Library, material: Material): string {
  for (const item of library.declared(material.item.name)) {
    if (item.kind === "device") return item.facts.one("kind")?.slots.kind.choice ?? "device";
    if (item.kind !== "stock") continue;
    const container = item.facts.one("container")?.slots.kind.choice ?? "container";
    return `${container} ${item.facts.one("drug") ? "drug" : "fluid"}`;
  }
  return "thing";
}

/** What a step is like, whoever is meant. */
function keyOf(line: string): string {
  return line.replace(/\{([^|}]+)\|[^}]+\}/g, "{$1}").replace(/\{[^}]+\}( , \{[^}]+\})+/g, "{list}");
}

/**
 * A step with its names as roles and the ordered dose as `{dose}`; claims are left out, since they are worked out anew. What it touches
 * is touched afterwards.
 */
function generalized(step: Step, bench: Touched): string {
  const words: string[] = [];
  const tokens = withoutClaims(step.tokens);
  const isLook = looseWord(tokens[0]) === "check"; // reading a label begins no work on what it stands on
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i]!;
    const unit = tokens[i + 1];
    if (token.kind === "number" && unit?.kind === "unit" && bench.isDose(`${token.text} ${unit.text}`)) {
      words.push("{dose}");
      i++;
      continue;
    }
    const kind = token.kind === "word" && i > 0 ? bench.kinds.get(token.text) : undefined;
    if (kind === undefined) {
      words.push(token.text);
      continue;
    }
    const listed = sameKindFrom(tokens, i, kind, bench);
    const all = bench.byKind.get(kind)!;
    const isList = tokens[i - 1]?.kind === "comma" || tokens[i + 1]?.kind === "comma";
    if (isList && listed.length === all.length && all.every((name) => listed.includes(name))) {
      words.push(`{${kind}|all}`);
      i += 2 * (listed.length - 1);
    } else words.push(`{${kind}|${bench.which(token.text)}}`);
    if (!isLook) for (const name of listed) bench.touch(name);
  }
  return words.join(" ");
}

/** The names of one kind that stand in a list from here on. */
function sameKindFrom(tokens: readonly Token[], from: number, kind: string, bench: Touched): string[] {
  const names = [tokens[from]!.text];
  for (let i = from + 1; tokens[i]?.kind === "comma" && bench.kinds.get(tokens[i + 1]?.text ?? "") === kind; i += 2)
    names.push(tokens[i + 1]!.text);
  return names;
}

function withoutClaims(tokens: readonly Token[]): readonly Token[] {
  const cut = tokens.findIndex((t) => t.kind === "equals" || t.text === "giving" || t.text === "leaving");
  return cut < 0 ? tokens : tokens.slice(0, cut);
}

/** The step in this recipe's words, going on from those that stand already; undefined where it does not fit them or a thing is missing. */
function instantiated(line: string, before: Touched, begun: readonly Token[]): string | undefined {
  const parts = line.match(/\{[^}]+\}|\S+/g) ?? [];
  const bench = begun.length > 0 ? before.copy() : before;
  const words: string[] = [];
  const names: (string | undefined)[] = [];
  let at = 0;
  for (const part of parts) {
    const token = begun[at];
    const [kind, which] = part.startsWith("{") ? part.slice(1, -1).split("|") : [];
    if (part === "{dose}") {
      if (token && token.kind !== "number") return undefined;
      const unit = begun[at + 1];
      if (token && unit?.kind === "unit") words.push(token.text, unit.text);
      else if (token && begun.length > at + 1) return undefined;
      else words.push(token ? `${token.text} {rest}` : part);
      at += token ? 2 : 0;
    } else if (kind === undefined) {
      // Another figure stands for the one learnt once its unit is written: a unit of another size is not put behind it.
      const isQuantity = token?.kind === "number" && begun[at + 1]?.kind === "unit" && /^[0-9.]+$/.test(part);
      if (token && token.text !== part && !isQuantity && token.kind !== "unit") return undefined;
      if (!token && bench.isForeign(part)) return undefined;
      words.push(token?.text ?? part);
      at += token ? 1 : 0;
    } else if (which === "all") {
      const listed: string[] = [];
      if (token) {
        if (bench.kinds.get(token.text) !== kind) return undefined;
        listed.push(...sameKindFrom(begun, at, kind, bench));
        at += 2 * listed.length - 1;
        // A comma at the end goes on with the same kind as long as one is missing.
        if (at === begun.length - 1 && begun[at]?.kind === "comma" && listed.length < bench.byKind.get(kind)!.length)
          at++;
      }
      const isClosed = at < begun.length;
      const rest = isClosed ? [] : (bench.byKind.get(kind) ?? []).filter((name) => !listed.includes(name));
      if (listed.length + rest.length === 0) return undefined;
      words.push([...listed, ...rest].join(" , "));
    } else {
      const name = token ? token.text : bench.name(kind, which!);
      if (name === undefined || bench.kinds.get(name) !== kind) return undefined;
      words.push(name);
      names.push(name);
      if (token) bench.touch(name);
      at += token ? 1 : 0;
    }
  }
  if (at < begun.length) return undefined;
  const whole = words.join(" ");
  if (!/\{(dose|rest)\}/.test(whole)) return whole;
  const dose = bench.doseFrom(names[0]);
  const begunDose = /(\S+) \{rest\}/.exec(whole)?.[1];
  if (dose === undefined || (begunDose !== undefined && !dose.startsWith(`${begunDose} `))) return undefined;
  return whole.replace(/\S+ \{rest\}|\{dose\}/, dose);
}
