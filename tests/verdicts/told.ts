/** What the language tells of a text, as names with lines. */
import { Library } from "../../language/library.ts";
import type { Finding } from "../../shared/finding.ts";

const file = "judged.misce";

export interface Told {
  name: string;
  /** From 1. */
  line: number;
  silenced: boolean;
  finding: Finding;
}

/** What is told beneath another finding, as what its figure would leave none of; there it has its place and its facts, and no name. */
const beneath: readonly (readonly [name: string, words: RegExp])[] = [
  ["lot-expires-before-use-limit", /can run until .* may be used only until/],
  ["use-within-longer-than-stability", /^Use within .* is declared stable for/],
  ["use-within-longer-than-policy", /^Use within .* allows/],
  ["given-longer-than-kept", /is used within/],
];

export function toldOf(text: string, asOf: string): Told[] {
  const library = new Library({ asOf });
  library.open(file, text);
  const lineOf = (start: number) => text.slice(0, start).split("\n").length;
  return library.findings(file).flatMap((finding) => {
    const { name, span, silenced, related } = finding;
    const own = { name, line: lineOf(span.start), silenced: silenced !== undefined, finding };
    const from = related.findIndex(({ message }) => message.endsWith("here would leave none of these:"));
    if (from < 0) return [own];
    const others = related.slice(from + 1).map((each) => {
      const known = beneath.find(([, words]) => words.test(each.message));
      if (!known) throw new RangeError(`what is this, beneath ${name}: ${each.message}`);
      return { name: known[0], line: lineOf(each.span.start), silenced: false, finding };
    });
    return [own, ...others];
  });
}
