import type { DeclarationKind } from "../../model/declaration.ts";
import { nearNamesIn, slips } from "../../model/near.ts";
import type { NameSlot } from "../../model/slots.ts";
import { libraryCheck } from "../check.ts";
import type { LibraryContext } from "../context.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { namesUsed } from "../names-used.ts";
import { didYouMean, oneOf } from "../showing.ts";
import { type UnreadElsewhere, unreadElsewhere } from "../unread-elsewhere.ts";

interface Unknown {
  at: NameSlot;
  name: string;
  kinds: readonly DeclarationKind[];
  /** A declaration of this name, but of another kind. */
  other: string | undefined;
  /** The name is declared, with lines that cannot be read. */
  unread?: UnreadElsewhere;
  /** Where the same name stands further on in the declaration. */
  others?: readonly NameSlot[];
}

export const unknownName = libraryCheck<Unknown>({
  name: "unknown-name",
  family: "structure",
  severity: "error",
  title: "A name that the library does not declare",
  why: "What is not declared cannot be checked: no strength, no limit, no lot.",
  source: "common practice",
  bad: example(["    mag          magnesium-ampoule", "    mag          magnesium-ampule"]),
  good: example(),
  *find({ declaration, lookup, chunk }) {
    if (declaration.kind === "recipe") {
      for (const unread of unreadElsewhere(declaration, lookup, chunk))
        yield { at: unread.at, name: unread.at.name, kinds: [], other: undefined, unread };
    }
    const told = new Map<string, Unknown & { others: NameSlot[] }>();
    for (const { name, kinds, isOrContained } of namesUsed(declaration)) {
      if (isOrContained) continue;
      const before = told.get(name.name);
      const known = kinds.some((kind) => {
        if (kind === "recipe" || kind === "lots") return lookup.names(kind).includes(name.name);
        return lookup.find(kind, name.name) !== undefined;
      });
      if (known) continue;
      // One name that is not there is one finding of a declaration, with every line that uses it.
      if (before) {
        before.others.push(name);
        if (kinds.length < before.kinds.length) before.kinds = kinds;
      } else told.set(name.name, { at: name, name: name.name, kinds, other: lookup.any(name.name)?.kind, others: [] });
    }
    yield* told.values();
  },
  say(found, { lookup }) {
    if (found.unread) {
      const { of, words, undeclared } = found.unread;
      const name = of.kind === "site" ? "the site" : `${of.kind} ${of.name.name}`;
      return {
        text: undeclared
          ? `${name} holds \`${undeclared}\`, which the library does not declare, so what rests on it was not checked. Mend it there.`
          : `What ${name} says of ${words.join(", ")} cannot be read, so what rests on it was not checked. Mend it there.`,
        related: [{ at: { start: of.head.start, end: of.head.end, chunk: of.chunk }, text: name }],
      };
    }
    const related = (found.others ?? []).map((at) => ({ at, text: "named here too" }));
    const wanted = oneOf(found.kinds.map((kind) => `a ${kind}`));
    if (found.other) {
      return { text: `\`${found.name}\` is a ${found.other}; here belongs ${wanted}. Name the right one.`, related };
    }
    if (found.kinds.includes("fluid") && undilutedWords.test(found.name))
      return {
        text: `\`${found.name}\` is no fluid. What is given as it comes is \`method undiluted\`, and has no line \`diluent\`. Leave it out.`,
        related,
      };
    return {
      text: `The library declares no ${oneOf(found.kinds)} \`${found.name}\`.${didYouMean(near(found, lookup))} Name a declared one, or declare it.`,
      related,
    };
  },
  fixes: (found, { lookup }) =>
    found.other || found.unread
      ? []
      : near(found, lookup).map((name) => ({
          title: `Write ${name}`,
          edits: [found.at, ...(found.others ?? [])].map((at) => replaceText(at, name)),
        })),
});

const undilutedWords = /^(?:nil|none|neat|no|undiluted)$/;

/** Names a slip away; with none, those that go on where this one ends, as `filter-needle-5um` does behind `filter-needle`. */
function near({ name, kinds }: Unknown, lookup: LibraryContext["lookup"]): string[] {
  const lists = kinds.map((kind) => lookup.names(kind));
  const slipped = nearNamesIn(name, lists).filter((each) => !hasOtherPart(name, each));
  if (slipped.length > 0) return slipped;
  // Of many sizes, as of syringes, none is meant more than another.
  const longer = lists.flatMap((names) => names.filter((each) => each.startsWith(`${name}-`)));
  return longer.length <= mostNamed ? longer : [];
}

/** `syringe-cap` is not `syringe-1mL` with a slip: all of one part is another word. */
function hasOtherPart(name: string, other: string): boolean {
  const [parts, others] = [name.split("-"), other.split("-")];
  if (parts.length < 2 || parts.length !== others.length) return false;
  return parts.some((part, i) => /[a-z]{3}/.test(part) && slips(part, others[i]!, part.length) >= part.length);
}

const mostNamed = 3;
