/**
 * One recipe for all worked examples of a shape: what stands on the bench, what is ordered, and the steps are filled in from the
 * row. The run is the engine's own (`runRecipe`); syringes and flasks here have no scale, so that exact volumes are moved and
 * only the row's own rounding remains.
 */
import { kindUnits } from "../../language/bench/amounts.ts";
import { pointAt } from "../../language/bench/order.ts";
import { type Run, runRecipe } from "../../language/bench/run.ts";
import { vesselsOf } from "../../language/bench/setup.ts";
import type { Vessel } from "../../language/bench/things.ts";
import { builtInDevices } from "../../language/model/built-in-devices.ts";
import type { Chunk, ChunkReading, Declaration, Recipe } from "../../language/model/declaration.ts";
import type { DeclarationOf, Lookup } from "../../language/model/lookup.ts";
import { defaultPolicy } from "../../language/model/policy.ts";
import { readChunk } from "../../language/model/read-chunk.ts";
import { Exact } from "../../language/quantities/exact.ts";
import { over, type Quantity } from "../../language/quantities/quantity.ts";
import { findUnit, plainUnit, type Unit } from "../../language/quantities/unit.ts";
import { splitChunks } from "../../language/syntax/chunks.ts";

export interface Parts {
  /** Further facts of the drug, such as its formula. */
  drug?: string;
  /** The stock `source` that the drug comes from. */
  stock: string;
  /** Lines of the order beside the drug. */
  order?: string;
  /** Further materials, one a line. */
  materials?: string;
  steps: string;
  /** The flask as a finished container, with these facts. */
  preparation?: string;
  /** Further declarations. */
  more?: string;
}

const bench = `
device plain-syringe {
  kind      syringe
  capacity  1000 L
}
fluid vehicle {
  name  "vehicle of the worked examples"
}
stock vehicle-tank {
  fluid      vehicle
  container  bottle
  fill       1000 L
  capacity   1000 L
}
stock empty-flask {
  fluid      vehicle
  container  empty-bottle
  capacity   1000 L
}
`;

export function recipeText(parts: Parts): string {
  return `${bench}
drug remedy {
  name  "remedy of the worked examples"
  ${parts.drug ?? ""}
}
stock source {
  drug  remedy
  ${parts.stock}
}
${parts.more ?? ""}
recipe worked {
  order {
    drug   remedy
    route  intravenous
    ${parts.order ?? ""}
  }
  materials {
    source   source
    tank     vehicle-tank
    flask    empty-flask
    second   empty-flask
    syringe  plain-syringe
    spare    plain-syringe
    ${parts.materials ?? ""}
  }
  steps {
    ${parts.steps}
  }
  ${parts.preparation === undefined ? "" : `preparation flask {\n    ${parts.preparation}\n  }`}
}
`;
}

class Shelf implements Lookup {
  constructor(private readonly all: readonly Declaration[]) {}
  find<K extends keyof DeclarationOf>(kind: K, name: string): DeclarationOf[K] | undefined {
    return this.all.find((d) => d.kind === kind && d.name.name === name) as DeclarationOf[K] | undefined;
  }
  any(name: string): Declaration | undefined {
    return this.all.find((d) => d.name.name === name);
  }
  second(name: string, kind?: Declaration["kind"]): Declaration | undefined {
    return this.all.filter((d) => d.name.name === name && (kind === undefined || d.kind === kind))[1];
  }
  namesTwice(): ReadonlySet<string> {
    return new Set(this.all.map((d) => d.name.name).filter((name) => this.second(name)));
  }
  site(): undefined {
    return undefined;
  }
  lots(): [] {
    return [];
  }
  names(kind: Declaration["kind"]): string[] {
    return this.all.filter((d) => d.kind === kind).map((d) => d.name.name);
  }
}

class Piece implements Chunk {
  readonly file = "worked.misce";
  private read: ChunkReading | undefined;
  constructor(
    readonly text: string,
    readonly base: number,
  ) {}
  get reading(): ChunkReading {
    this.read ??= readChunk(this);
    return this.read;
  }
}

/** Runs the recipe; throws where a line was not understood or a figure could not be known, so that no row passes by default. */
export function run(parts: Parts): Run {
  const text = recipeText(parts);
  const readings = splitChunks(text).map((chunk) => new Piece(chunk.text, chunk.start).reading);
  const problems = readings.flatMap((reading) => reading.problems);
  if (problems.length > 0) throw new Error(`${JSON.stringify(problems)}\n${text}`);
  const all = [...builtInDevices().map((b) => b.reading), ...readings].flatMap((reading) => reading.declarations);
  const recipe = all.find((d): d is Recipe => d.kind === "recipe")!;
  const result = runRecipe(recipe, new Shelf(all), defaultPolicy(), {
    point: pointAt(recipe, "from"),
    overfill: "label",
  });
  if (result.unknown) throw new Error(`Not known: ${result.happenings.map((h) => h.kind).join(", ")}\n${text}`);
  return result;
}

export function vessel(result: Run, name: string): Vessel {
  const [first] = vesselsOf(result.groups.get(name));
  if (!first) throw new Error(`No ${name} on the bench.`);
  return first;
}

export function amountIn(result: Run, name: string): Quantity {
  const value = vessel(result, name).liquid.amounts.get("remedy");
  if (!value) throw new Error(`No drug in ${name}.`);
  return { value, unit: activityOf(result) ?? kindUnits[result.setup.kinds.get("remedy") ?? "mass"] };
}

/** The bench counts activity as a number; whose units they are stands on the stock's label. */
function activityOf(result: Run): Unit | undefined {
  const facts = vessel(result, "source").stock?.facts;
  const label = facts?.one("strength")?.slots.strength.quantity ?? facts?.one("content")?.slots.content.quantity;
  const words = { unit: "units", international: "international units", usp: "USP units" };
  return label?.unit.activityKind && findUnit(words[label.unit.activityKind]).unit;
}

export function volumeIn(result: Run, name: string): Quantity {
  return { value: vessel(result, name).liquid.volume, unit: findUnit("mL").unit! };
}

export function concentrationIn(result: Run, name: string): Quantity {
  return over(amountIn(result, name), volumeIn(result, name));
}

/** What the step of this number (from 1) moved. */
export function movedBy(result: Run, step: number): Quantity {
  const moved = result.steps[step - 1]?.moved;
  if (!moved) throw new Error(`Step ${step} moved nothing.`);
  return { value: moved, unit: findUnit("mL").unit! };
}

/** How many containers of this name the run needed. */
export function countOf(result: Run, name: string): Quantity {
  return { value: Exact.of(result.groups.get(name)?.things.length ?? 0), unit: plainUnit };
}
