/** What is compared by its findings alone: lots, inventories, text outside every declaration. */
import type { DeclarationChange } from "../../shared/comparison.ts";
import type { Library } from "../library.ts";
import { chunkHead } from "../syntax/chunks.ts";
import { type DeclarationChanges, empty } from "./declaration-changes.ts";
import { bareText } from "./match-declarations.ts";
import { grouped } from "./pair-statements.ts";
import { verdicts } from "./verdicts.ts";

export class LooseEnds {
  /** Files that hold text outside every declaration, or a changed declaration behind which such text may stand. */
  private readonly differing: ReadonlySet<string>;

  constructor(
    private readonly before: Library,
    private readonly after: Library,
    private readonly changes: DeclarationChanges,
  ) {
    const { pairs, added, removed } = changes.matched;
    const files = new Set([...before.inventoryFiles(), ...after.inventoryFiles()]);
    for (const pair of pairs) {
      if (!pair.before.isWordedAs(pair.after)) files.add(pair.before.file).add(pair.after.file);
    }
    for (const head of [...added, ...removed]) files.add(head.file);
    this.differing = files;
  }

  mayDiffer(file: string): boolean {
    return this.differing.has(file) || looseText(this.before, file) !== looseText(this.after, file);
  }

  /** @param isAnythingTouched whether a declaration says something else, which what is said of lots may rest on */
  files(isAnythingTouched: boolean): string[] {
    const files = new Set(this.differing);
    for (const side of ["before", "after"] as const) {
      for (const head of this.changes.heads[side]) if (head.kind === "lots" && isAnythingTouched) files.add(head.file);
      for (const file of this[side].files())
        if (looseText(this.before, file) !== looseText(this.after, file)) files.add(file);
    }
    return [...files];
  }

  changesIn(file: string): DeclarationChange[] {
    const of = (library: Library) => grouped(library.findings(file), (f) => f.subject);
    const [was, is] = [of(this.before), of(this.after)];
    return [...new Set([...was.keys(), ...is.keys()])].flatMap((subject) => {
      const [kind = "", name = ""] = subject.split(" ");
      if (kind !== "" && kind !== "lots") return [];
      const found = verdicts(was.get(subject) ?? [], is.get(subject) ?? []);
      if (found.length === 0) return [];
      const shownKind = kind === "" ? "text outside every declaration" : kind;
      return [{ ...empty(shownKind, name, file), verdicts: found, level: "verdict" as const }];
    });
  }
}

/** What stands above the first declaration of a file, or in a file without any; chunks begin with a declaration otherwise. */
function looseText(library: Library, file: string): string {
  const [first] = library.chunks(file);
  return first && !chunkHead(first.text) ? bareText(first.text) : "";
}
