/**
 * The same preparation with its declarations, and the lines of its order, materials and preparation, in another order: the same figures
 * to the last digit, and the same findings. MISCE_SEED begins elsewhere.
 */
import { expect, it } from "vitest";
import { differences } from "./compare.ts";
import { program, shapeNames } from "./generate.ts";
import { Told } from "./language-run.ts";
import { patientsOf } from "./patients.ts";
import { Random } from "./random.ts";
import { carriedOut } from "./run.ts";
import { written } from "./write-recipe.ts";

const first = Number(process.env.MISCE_SEED ?? 0);
const count = 10 * shapeNames.length;

function shuffled<T>(random: Random, list: readonly T[]): T[] {
  const all = [...list];
  for (let i = all.length - 1; i > 0; i--) {
    const j = random.between(0, i);
    [all[i], all[j]] = [all[j]!, all[i]!];
  }
  return all;
}

function inOtherOrder(text: string, random: Random): string {
  const inBlocks = text.replace(
    /^( {2}(?:order|materials|preparation \S+) \{\n)([^}]*)(^ {2}\}$)/gm,
    (_, head, body, end) => {
      return `${head}${shuffled(random, body.trimEnd().split("\n")).join("\n")}\n${end}`;
    },
  );
  return `${shuffled(random, inBlocks.trimEnd().split(/\n\n(?=\S)/)).join("\n\n")}\n`;
}

it("means the same in any order of its lines", { timeout: 120_000 }, () => {
  const found: string[] = [];
  for (let seed = first; seed < first + count; seed++) {
    const each = program(seed);
    const { text, stepOf } = written(each);
    const other = inOtherOrder(text, new Random(seed + 31));
    if (other === text) found.push(`MISCE_SEED=${seed}: nothing changed its place`);
    const [told, toldOther] = [new Told(text), new Told(other)];
    const patient = patientsOf(each).at(-1);
    const point = patient ? toldOther.point(each.order.range!.of, patient.toString()) : new Map();
    const differing = differences(each, carriedOut(each, patient), toldOther.run(point), stepOf);
    const names = ({ findings }: Told) => findings.map(({ name }) => name).sort();
    if (differing.length > 0) found.push(`MISCE_SEED=${seed}: ${differing[0]}`);
    if (names(told).join() !== names(toldOther).join())
      found.push(`MISCE_SEED=${seed} (${each.shape}): ${names(told).join()} became ${names(toldOther).join()}`);
  }
  expect(found).toEqual([]);
});
