/**
 * The same meaning written otherwise is told the same: sample recipes in order and with a wrong figure in them, and the faulty samples,
 * each rewritten in every way. `npm run test:long` takes all of them; else each way takes its share.
 */
import { describe, expect, test } from "vitest";
import type { Library } from "../../language/library.ts";
import type { Finding } from "../../shared/finding.ts";
import { chance } from "../checks/chance.ts";
import { slipsIn, withSlips } from "../checks/planted-slips.ts";
import { type Rewriting, rewritings } from "./rewritings.ts";
import { faultyFolders, findingsOver, opened, share, type Texts, textsOf } from "./samples.ts";
import { statementsOf } from "./statements.ts";

const shares = process.env.MISCE_LONG ? 1 : 16;
const faultyShares = process.env.MISCE_LONG ? 1 : 120;

/** What is told, without places; of another way of writing without the words, in which figures stand as written. */
function told(found: readonly Finding[], { keepsWords, ofWriting }: Rewriting): string[] {
  return found
    .filter(({ name }) => !ofWriting?.includes(name))
    .map(({ name, severity, message }) => (keepsWords ? `${name} ${severity}: ${message}` : `${name} ${severity}`))
    .sort();
}

const recipesIn = (texts: Texts) => [...texts.keys()].filter((file) => file.includes("/recipes/")).length;

/** A wrong figure in every second recipe. */
function withFaults(texts: Texts, seed: number): Texts {
  const next = chance(seed);
  return new Map(
    [...texts].map(([file, text], i) => {
      const slips = file.includes("/recipes/") && i % 2 === 0 ? slipsIn(text) : [];
      return [file, slips.length === 0 ? text : withSlips(text, [slips[Math.floor(next() * slips.length)]!])];
    }),
  );
}

const libraries = [textsOf("library"), textsOf("library-containment")];
const faulty = faultyFolders();

describe.each(rewritings.map((rewriting, k) => ({ ...rewriting, k })))("$what", (rewriting) => {
  const { rewrite, isForRight, k } = rewriting;

  test("of the sample libraries", () => {
    let changed = 0;
    for (const all of libraries) {
      // What the rewriting leaves as it is shows nothing.
      const isMet = ([file, text]: [string, string]) =>
        !file.includes("/recipes/") || [...rewrite(new Map([[file, text]])).values()].some((other) => other !== text);
      const met = new Map([...all].filter(isMet));
      const some = share(met, k, Math.min(shares, Math.max(1, recipesIn(met))));
      const texts = isForRight ? some : withFaults(some, k);
      const other = rewrite(texts);
      changed += [...other].filter(([file, text]) => texts.get(file) !== text).length;
      expect(told(findingsOver(opened(other)), rewriting)).toEqual(told(findingsOver(opened(texts)), rewriting));
    }
    expect(changed).toBeGreaterThan(0);
  });

  test.skipIf(isForRight)("of faulty samples", () => {
    for (const folder of faulty.filter((name, i) => i % faultyShares === k % faultyShares && !aboutForm.has(name))) {
      const texts = textsOf(`faulty/${folder}`);
      const findings = (library: Library) => told(findingsOver(library), rewriting);
      expect({ folder, told: findings(opened(rewrite(texts))) }).toEqual({ folder, told: findings(opened(texts)) });
    }
  });
});

/** Faults of braces, lines and quotes, and of what stands twice: another order of lines is another fault. */
const aboutForm: ReadonlySet<string> = new Set([
  "block-stated-twice",
  "brace-missing",
  "brace-not-at-line-end",
  "closing-brace-not-alone",
  "declared-twice",
  "head-missing",
  "line-outside-declaration",
  "stray-closing-brace",
  "text-not-closed",
  "text-too-long",
  // Told of an order of one drug; of additives the unknown name is told.
  "title-without-drug",
  // The draw says otherwise than the order does.
  "dose-and-concentration-ordered",
  ...faulty.filter((name) => !isInBlocks(name)),
]);

function isInBlocks(folder: string): boolean {
  try {
    for (const text of textsOf(`faulty/${folder}`).values()) statementsOf(text);
    return true;
  } catch {
    return false;
  }
}
