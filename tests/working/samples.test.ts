/**
 * Every working of every sample recipe, at the ends of its range too: each sum, product and quotient that a line claims is done
 * again with another arithmetic, and each figure is laid against what the bench holds.
 */
import { Decimal } from "decimal.js";
import { describe, expect, test } from "vitest";
import { type Explained, type ExplainedFigure, explainFigures } from "../../language/answers/explain.ts";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";
import { libraryOf, textsOf } from "../sheet/sample-sheets.ts";

const explained = ["library", "library-containment"].flatMap((folder): Explained[] => {
  const library = libraryOf(textsOf(folder));
  return library.headsOf("recipe").map(({ name }) => {
    const found = explainFigures(library, { recipe: name.name, inputs: new Map(), figure: undefined });
    if (isSheetRefusal(found)) throw new Error(found.refusal);
    return found;
  });
});

const figures = explained.flatMap(({ recipe, orders }) =>
  orders.flatMap(({ at, figures: list }) => list.map((figure) => ({ where: `${recipe} ${at}`, figure }))),
);
const lines = figures.flatMap(({ where, figure }) => figure.lines.map((l) => ({ where, ...l })));

/** Units in which a working may count, against a common one of their kind. */
const sizes: Readonly<Record<string, string>> = {
  g: "1",
  mg: "1e-3",
  mcg: "1e-6",
  L: "1e3",
  mL: "1",
  h: "1",
  min: `${1 / 60}`,
};
const number = String.raw`(-?[\d.]+)`;
const plain = (text: string) => text.replaceAll(",", "").replaceAll(" (to four figures)", "");

describe("the working of the samples", () => {
  test("covers them and every kind of figure that they have", () => {
    expect(explained.length).toBeGreaterThan(55);
    expect(explained.filter((e) => e.orders.length === 2).map((e) => e.recipe)).toContain("vancomycin-loading");
    const kinds = ["dose", "final-volume", "concentration", "osmolarity", "rate", "use-within", "worst-case"];
    const names = new Set(figures.map(({ figure }) => figure.name));
    expect(kinds.filter((kind) => !names.has(kind))).toEqual([]);
  });

  test("has a line for every figure, and a name of its own for each in a recipe", () => {
    expect(figures.filter(({ figure }) => figure.lines.length === 0).map((f) => `${f.where} ${f.figure.name}`)).toEqual(
      [],
    );
    for (const { recipe, orders } of explained) {
      for (const { figures: own } of orders) {
        const names = own.map((f) => f.name);
        expect([recipe, names.filter((name, i) => names.indexOf(name) !== i)]).toEqual([recipe, []]);
        expect(names.filter((name) => !/^[a-z0-9]+(?:[-.][a-z0-9]+)*$/i.test(name))).toEqual([]);
      }
    }
  });

  test("adds up", () => {
    const sums = lines.flatMap((l) => {
      const match = new RegExp(
        `(?:^|: )${number} mL((?: [+−] ${number} mL(?: taken up by the powder)?)+) = ${number} mL$`,
      ).exec(plain(l.text));
      return match && !l.text.includes("(") ? [{ l, match }] : [];
    });
    expect(sums.length).toBeGreaterThan(200);
    const wrong = sums.filter(({ match }) => {
      const terms = [...match[2]!.matchAll(/([+−]) ([\d.]+) mL/g)].map(([, sign, n]) =>
        new Decimal(n!).times(sign === "+" ? 1 : -1),
      );
      return !terms.reduce((sum, n) => sum.plus(n), new Decimal(match[1]!)).equals(match[4]!);
    });
    expect(wrong.map(({ l }) => `${l.where}: ${l.text}`)).toEqual([]);
  });

  test("divides rightly, units included", () => {
    const quotients = lines.flatMap((l) => {
      const match = new RegExp(`${number} (\\S+) ÷ ${number} (\\S+) = ${number} (\\S+)`).exec(plain(l.text));
      return match ? [{ l, match }] : [];
    });
    expect(quotients.length).toBeGreaterThan(200);
    const wrong = quotients.filter(({ match: [, a, unitA, b, unitB, c, unitC] }) => {
      const exact = new Decimal(a!).div(b!);
      const off = (factor: Decimal) => new Decimal(c!).div(exact.times(factor)).minus(1).abs();
      return exact.isZero()
        ? !new Decimal(c!).isZero()
        : !factors(unitA!, unitB!, unitC!).some((f) => off(f).lessThan(0.0006));
    });
    expect(wrong.map(({ l }) => `${l.where}: ${l.text}`)).toEqual([]);
  });

  test("ends at the figure that it is the working of", () => {
    const told = figures.filter(({ figure }) =>
      /^(?:dose|step|final-volume|concentration|rate|drops)/.test(figure.name),
    );
    expect(told.length).toBeGreaterThan(300);
    const wrong = told.filter(({ figure }) => !figure.lines.some((l) => l.value && sameFigure(l.value, figure)));
    expect(wrong.map(({ where, figure }) => `${where} ${figure.name}`)).toEqual([]);
  });
});

function sameFigure(value: NonNullable<ExplainedFigure["value"]>, { value: own }: ExplainedFigure): boolean {
  return own !== null && value.number === own.number && value.unit === own.unit;
}

/** What the units leave of the bare quotient: known parts by their size, others must cancel or stay alike. */
function factors(a: string, b: string, c: string): Decimal[] {
  const size = (unit: string): Decimal | undefined => {
    const parts = unit.split("/").map((part) => sizes[part.replace(/[;:]$/, "")]);
    if (parts.some((part) => part === undefined)) return undefined;
    return parts.slice(1).reduce((whole, part) => whole.div(part!), new Decimal(parts[0]!));
  };
  const [x, y, z] = [size(a), size(b), size(c)];
  if (x && y && z) return [x.div(y).div(z)];
  // Units of activity, mmol and the like: what differs is mL against L, or minutes against hours.
  return [1, 1000, 0.001, 60, 60_000, 0.06].map((n) => new Decimal(n));
}
