/** Which recipes a change elsewhere may reach, told by names alone: cheap, and never too few. The exact way is found afterwards. */

import type { Side } from "../../shared/comparison.ts";
import type { Library } from "../library.ts";
import type { Head } from "./match-declarations.ts";
import { namesLeadingTo } from "./whole-meaning.ts";

export class Reach {
  private readonly words: Record<Side, RegExp | "all" | undefined>;
  /** Names of recipes that came or went: nothing rests on them, but a second declaration of the name is judged beside them. */
  private readonly recipes: ReadonlySet<string>;

  /** @param touched changed declarations as `kind name`, on each side */
  constructor(before: Library, after: Library, touched: Record<Side, ReadonlySet<string>>) {
    this.words = { before: pattern(before, touched.before), after: pattern(after, touched.after) };
    const recipes = [...touched.before, ...touched.after].filter((key) => key.startsWith("recipe "));
    this.recipes = new Set(recipes.map((key) => key.slice("recipe ".length)));
  }

  mayReach(before: Head, after: Head): boolean {
    if (this.recipes.has(before.name) || this.recipes.has(after.name)) return true;
    return isNamed(before.text, this.words.before) || isNamed(after.text, this.words.after);
  }
}

function isNamed(text: string, words: RegExp | "all" | undefined): boolean {
  return words === "all" || (words?.test(text) ?? false);
}

function pattern(library: Library, touched: ReadonlySet<string>): RegExp | "all" | undefined {
  const shared = [...touched].filter((key) => !key.startsWith("recipe "));
  if (shared.length === 0) return undefined;
  if (touched.has("site")) return "all";
  const names = namesLeadingTo(new Set(shared.map((key) => key.slice(key.indexOf(" ") + 1))), library);
  if (names.has("site")) return "all";
  const escaped = [...names].map((name) => name.replace(/[.\\+*?^$()[\]{}|]/g, "\\$&"));
  return new RegExp(`(?<![\\w.-])(?:${escaped.join("|")})(?![\\w-])`);
}
