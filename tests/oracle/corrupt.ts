/** A program with one stated figure made wrong: by a factor, or by the unit beside it. */
import { type Figure, figure, fits, writtenNumber } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type { Program } from "./program.ts";
import type { Random } from "./random.ts";

type Path = readonly (string | number)[];

export interface Corrupted {
  program: Program;
  path: Path;
  from: Figure;
  to: Figure;
}

const isFigure = (value: unknown): value is Figure =>
  typeof value === "object" && value !== null && "unit" in value && "value" in value && value.value instanceof Fraction;

/** Where every figure of a program stands, those of the syringes' scales and of the range's own ends left out. */
export function figurePaths(program: Program): Path[] {
  const paths: Path[] = [];
  const walk = (value: unknown, path: Path): void => {
    if (isFigure(value)) paths.push(path);
    else if (typeof value === "object" && value !== null) {
      for (const [key, inner] of Object.entries(value)) {
        if (key !== "syringe" && key !== "range" && key !== "set") walk(inner, [...path, key]);
      }
    }
  };
  for (const part of ["stocks", "bands", "materials", "order", "actions", "preparation", "intermediates"] as const)
    walk(program[part], [part]);
  return paths;
}

const factors = ["2", "0.5", "10", "0.1", "1000", "0.001"].map((factor) => Fraction.of(factor));

/** Units that stand for one another in a slip of the pen. */
const swaps: Readonly<Record<string, readonly string[]>> = {
  mg: ["mcg", "g"],
  mcg: ["mg"],
  g: ["mg"],
  mL: ["L"],
  L: ["mL"],
  mcL: ["mL"],
  mmol: ["mEq"],
  mEq: ["mmol"],
  units: ["mg"],
};

/** Another figure in this place; undefined where the slip cannot be written. */
function slip(random: Random, from: Figure): Figure | undefined {
  const [above = "", ...below] = from.unit.split("/");
  const others = swaps[above] ?? [];
  if (others.length > 0 && random.chance(0.3)) {
    const unit = [random.pick(others), ...below].join("/");
    const { value: _, ...counted } = from;
    return figure(writtenNumber(from), unit, { ...counted, unit });
  }
  const value = from.value.times(random.pick(factors));
  return value.isZero || !fits(value, from.unit) ? undefined : { ...from, value };
}

export function corrupted(program: Program, random: Random): Corrupted | undefined {
  const paths = figurePaths(program);
  for (let attempt = 0; attempt < 20; attempt++) {
    const path = random.pick(paths);
    const from = at(program, path) as Figure;
    const to = slip(random, from);
    if (to) return { program: replaced(program, path, to) as Program, path, from, to };
  }
  return undefined;
}

const at = (value: unknown, path: Path): unknown =>
  path.reduce<unknown>((inner, key) => (inner as Record<string, unknown>)[key], value);

function replaced(value: unknown, [key, ...rest]: Path, by: Figure): unknown {
  if (key === undefined) return by;
  if (Array.isArray(value))
    return value.map((each, i) => (String(i) === String(key) ? replaced(each, rest, by) : each));
  const whole = value as Record<string, unknown>;
  return { ...whole, [key]: replaced(whole[key], rest, by) };
}
