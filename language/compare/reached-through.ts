/** Through which changed declarations a change reaches a recipe that itself says the same. */
import type { DeclarationChange, Side } from "../../shared/comparison.ts";
import type { Library } from "../library.ts";
import type { Recipe } from "../model/declaration.ts";
import { canonicalJson, type NameOf, sameName } from "./canonical.ts";
import { rolesNamed, siteFactsHash } from "./fingerprint.ts";
import { lookAlikesOf, printedOf } from "./look-alikes.ts";
import { restsOn } from "./whole-meaning.ts";

export class ReachedThrough {
  /**
   * @param touched declarations whose meaning differs, and all that came or went, by their keys on each side
   * @param renamed the name after of a name before
   */
  constructor(
    private readonly before: Library,
    private readonly after: Library,
    private readonly touched: Record<Side, ReadonlySet<string>>,
    private readonly renamed: NameOf,
  ) {}

  /** Changed declarations that the recipe rests on now or rested on before; what was renamed bears its new name. */
  of(was: Recipe, is: Recipe): DeclarationChange["reachedThrough"] {
    const paths = new Map<string, string[]>();
    const put = (side: Side, kind: string, name: string, path: readonly string[]) => {
      if (this.touched[side].has(`${kind} ${name}`))
        paths.set(`${kind} ${side === "before" ? this.renamed(name) : name}`, [...path]);
    };
    for (const side of ["before", "after"] as const) {
      for (const { declaration, path } of restsOn(side === "before" ? was : is, this[side])) {
        const { kind, name } = declaration;
        if (kind === "site") {
          if (this.touched[side].has("site") && this.isSiteOther(was, is)) paths.set("site", [...path]);
          continue;
        }
        put(side, kind, name.name, path);
        if (kind === "stock") put(side, "lots", name.name, [...path, "lots on the shelf"]);
      }
    }
    for (const [name, path] of this.lookAlikes(was, is)) if (!paths.has(name)) paths.set(name, path);
    return [...paths].map(([declaration, path]) => ({ declaration, path }));
  }

  /** Look-alikes of which the sheet prints other words; the rest of what they say does not bear on this recipe. */
  private lookAlikes(was: Recipe, is: Recipe): Map<string, string[]> {
    const [before, after] = [this.warnedOf("before", was), this.warnedOf("after", is)];
    const other = new Map<string, string[]>();
    for (const name of new Set([...before.keys(), ...after.keys()])) {
      const [one, two] = [before.get(name), after.get(name)];
      if (one?.words !== two?.words) other.set(name, [...(two ?? one)!.path]);
    }
    return other;
  }

  /** By the names that they have after; without those that did not change at all. */
  private warnedOf(side: Side, recipe: Recipe): Map<string, { words: string; path: readonly string[] }> {
    const nameAfter = side === "before" ? this.renamed : sameName;
    return new Map(
      lookAlikesOf(recipe, this[side]).flatMap(({ declaration, path }) => {
        const { kind, name } = declaration;
        if (!this.touched[side].has(`${kind} ${name.name}`)) return [];
        return [
          [
            `${kind} ${nameAfter(name.name)}`,
            { words: canonicalJson(printedOf(declaration, nameAfter)), path },
          ] as const,
        ];
      }),
    );
  }

  /** The approvals that it asks for and roles that the recipe does not name bear on no preparation. */
  private isSiteOther(was: Recipe, is: Recipe): boolean {
    this.areSiteFactsOther ??= siteFactsHash(this.before) !== siteFactsHash(this.after);
    return this.areSiteFactsOther || rolesNamed(was, this.before).join() !== rolesNamed(is, this.after).join();
  }

  private areSiteFactsOther: boolean | undefined;
}
