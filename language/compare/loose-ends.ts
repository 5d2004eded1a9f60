/** What stands outside the declarations that are matched: lots by what they state and what is found in them, loose text by its findings. */
import type { DeclarationChange, FactChange } from "../../shared/comparison.ts";
import type { Library } from "../library.ts";
import { chunkHead } from "../syntax/chunks.ts";
import { type NameOf, sameName } from "./canonical.ts";
import { type DeclarationChanges, empty } from "./declaration-changes.ts";
import { bareText, type Head } from "./match-declarations.ts";
import { type FactMeaning, meaningOf } from "./meaning.ts";
import { grouped, pairFacts } from "./pair-statements.ts";
import { verdicts } from "./verdicts.ts";

/** What is stated of the lots of one stock, wherever that stands. */
interface LotsChange {
  how: DeclarationChange["how"];
  facts: FactChange[];
}

export class LooseEnds {
  /** Files that hold text outside every declaration, or a changed declaration behind which such text may stand. */
  private readonly differing: ReadonlySet<string>;
  private lots: Map<string, Map<string, LotsChange>> | undefined;

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
    this.lots ??= this.lotsChanged();
    const lots = this.lots.get(file) ?? new Map<string, LotsChange>();
    const subjects = new Set([...was.keys(), ...is.keys(), ...[...lots.keys()].map((name) => `lots ${name}`)]);
    return [...subjects].flatMap((subject) => {
      const [kind = "", name = ""] = subject.split(" ");
      if (kind !== "" && kind !== "lots") return [];
      const found = verdicts(was.get(subject) ?? [], is.get(subject) ?? []);
      const { how, facts }: LotsChange = (kind === "lots" ? lots.get(name) : undefined) ?? { how: "same", facts: [] };
      if (found.length + facts.length === 0) return [];
      const shownKind = kind === "" ? "text outside every declaration" : kind;
      const level = found.length > 0 ? ("verdict" as const) : ("fact" as const);
      return [{ ...empty(shownKind, name, file), how, facts, verdicts: found, level }];
    });
  }

  /** A day that was put off by a slip of the pen is no matter of any recipe, and is told all the same. By file, then by stock. */
  private lotsChanged(): Map<string, Map<string, LotsChange>> {
    const { heads, matched } = this.changes;
    const ofLots = (side: readonly Head[], nameOf: NameOf) =>
      grouped(
        side.filter((h) => h.kind === "lots"),
        (h) => nameOf(h.name),
      );
    const was = ofLots(heads.before, (name) => matched.renamed.get(name) ?? name);
    const is = ofLots(heads.after, sameName);
    const byFile = new Map<string, Map<string, LotsChange>>();
    for (const name of new Set([...was.keys(), ...is.keys()])) {
      const [before, after] = [was.get(name) ?? [], is.get(name) ?? []];
      const text = (side: readonly Head[]) => side.map((h) => h.text).join("\n");
      if (text(before) === text(after)) continue;
      const facts = factsChanged(before.flatMap(stated), after.flatMap(stated));
      if (facts.length === 0) continue;
      const { file } = (after[0] ?? before[0])!;
      const how = before.length === 0 ? "added" : after.length === 0 ? "removed" : "changed";
      byFile.set(file, (byFile.get(file) ?? new Map<string, LotsChange>()).set(name, { how, facts }));
    }
    return byFile;
  }
}

function stated({ declaration }: Head): FactMeaning[] {
  return meaningOf(declaration).facts;
}

function factsChanged(before: readonly FactMeaning[], after: readonly FactMeaning[]): FactChange[] {
  const { changed, removed, added } = pairFacts("lots", before, after);
  const told = (how: FactChange["how"], was: string, is: string): FactChange => ({
    block: "",
    how,
    before: was,
    after: is,
    figures: [],
  });
  return [
    ...changed.map(([was, is]) => told("changed", was.shown, is.shown)),
    ...removed.map((was) => told("removed", was.shown, "")),
    ...added.map((is) => told("added", "", is.shown)),
  ];
}

/** What stands above the first declaration of a file, or in a file without any; chunks begin with a declaration otherwise. */
function looseText(library: Library, file: string): string {
  const [first] = library.chunks(file);
  return first && !chunkHead(first.text) ? bareText(first.text) : "";
}
