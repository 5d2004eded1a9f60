/**
 * Notes what is asked of a library and of its site's policy while something is worked out, so that it is known whether the same work
 * on another library would come to the same.
 *
 * Invariant: what is worked out from a recipe's text, a day and these answers alone is the same on both sides where the text, the day
 * and every answer are the same. Answers are compared by what they say; where that cannot be told, they count as different.
 * A figure of the policy that differs is answered as a number that remembers what was decided on it (traced.ts): where all of that
 * would be decided alike with the other side's figure, the work comes to the same.
 */
import type { Library } from "../library.ts";
import { dateText } from "../model/dates.ts";
import type { Declaration, DeclarationKind } from "../model/declaration.ts";
import { siteFacts } from "../model/declarations/site.ts";
import type { DeclarationOf, Lookup, LotOnShelf } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import type { Polynomial } from "../proof/polynomial.ts";
import { above, below, Trace, zero } from "../proof/traced.ts";
import { Exact } from "../quantities/exact.ts";
import { type FactMeaning, meaningOf } from "./meaning.ts";

type Surroundings = ReturnType<Library["surroundings"]>;

export class Asked {
  /** To work with in the place of the library's own. */
  readonly around: Surroundings;
  /** By question: whether the answer is the same in these surroundings. */
  private readonly questions = new Map<string, (other: Surroundings) => boolean>();

  /** @param other the surroundings that the answers will be held against, so that figures which differ can be followed */
  constructor({ lookup, policy, asOf }: Surroundings, other?: Surroundings) {
    const { questions } = this;
    const followed = other && new FollowedFigures(policy, other.policy);
    const note = (question: string, isSame: (other: Surroundings) => boolean): void => {
      if (!questions.has(question)) questions.set(question, isSame);
    };
    this.around = { lookup: noting(lookup, note), policy: notingPolicy(policy, note, followed), asOf };
    if (followed) note("decisions", () => followed.areDecidedAlike());
    note("day", (other) => dateText(other.asOf) === dateText(asOf));
  }

  isAnsweredAlike(other: Surroundings): boolean {
    return [...this.questions.values()].every((isSame) => isSame(other));
  }
}

type Note = (question: string, isSame: (other: Surroundings) => boolean) => void;

function noting(lookup: Lookup, note: Note): Lookup {
  return {
    find<K extends keyof DeclarationOf>(kind: K, name: string): DeclarationOf[K] | undefined {
      const found = lookup.find(kind, name);
      note(`find ${kind} ${name}`, (other) => sayTheSame(found, other.lookup.find(kind, name)));
      return found;
    },
    any(name: string): Declaration | undefined {
      const found = lookup.any(name);
      note(`any ${name}`, (other) => sayTheSame(found, other.lookup.any(name)));
      return found;
    },
    second(name: string, kind?: keyof DeclarationOf): Declaration | undefined {
      const found = lookup.second(name, kind);
      note(`second ${name} ${kind ?? ""}`, (other) => sayTheSame(found, other.lookup.second(name, kind)));
      return found;
    },
    namesTwice(): ReadonlySet<string> {
      const found = lookup.namesTwice();
      note("twice", (other) => [...found].join("\n") === [...other.lookup.namesTwice()].join("\n"));
      return found;
    },
    site() {
      const found = lookup.site();
      note("site", (other) => isSiteAlike(found, other.lookup.site()));
      return found;
    },
    lots(stock: string): readonly LotOnShelf[] {
      const found = lookup.lots(stock);
      note(`lots ${stock}`, (other) => shelfText(found) === shelfText(other.lookup.lots(stock)));
      return found;
    },
    names(kind: DeclarationKind): readonly string[] {
      const found = lookup.names(kind);
      note(`names ${kind}`, (other) => found.join("\n") === other.lookup.names(kind).join("\n"));
      return found;
    },
  };
}

function notingPolicy(policy: Policy, note: Note, followed: FollowedFigures | undefined): Policy {
  const view = {};
  for (const field of Object.keys(policy) as (keyof Policy)[]) {
    const answer = followed?.mine[field] ?? policy[field];
    const get = () => {
      note(`policy ${field}`, (other) =>
        areAlike(policy[field], followed?.itsButFollowed[field] ?? other.policy[field]),
      );
      return answer;
    };
    Object.defineProperty(view, field, { get, enumerable: true });
  }
  return view as Policy;
}

/** Figures that both policies state, with another value each. */
class FollowedFigures {
  /** The one policy, with those figures as numbers that remember what is decided on them. */
  readonly mine: Policy;
  /** The other policy, with the one's figures in the place of its own, for comparing all the rest. */
  readonly itsButFollowed: Policy;
  private readonly values: { mine: Exact[]; its: Exact[] } = { mine: [], its: [] };
  private readonly trace: Trace;

  constructor(mine: Policy, its: Policy) {
    const { values } = this;
    this.trace = new Trace(values.mine);
    const both = (one: unknown, other: unknown): { one: unknown; other: unknown } => {
      if (one instanceof Exact && other instanceof Exact && !one.equals(other)) {
        values.its.push(other);
        const input = values.mine.push(one) - 1;
        return { one: this.trace.input(input), other: one };
      }
      if (!isPlainObject(one) || !isPlainObject(other)) return { one, other };
      const pairs = Object.keys(one).map((key) => [key, both(one[key], other[key])] as const);
      if (pairs.every(([key, pair]) => pair.one === one[key])) return { one, other };
      const made = (side: "one" | "other") => Object.fromEntries(pairs.map(([key, pair]) => [key, pair[side]]));
      return { one: made("one"), other: { ...other, ...made("other") } };
    };
    const { one, other } = both(mine, its);
    this.mine = one as Policy;
    this.itsButFollowed = other as Policy;
  }

  areDecidedAlike(): boolean {
    const { its } = this.values;
    const signOf = (polynomial: Polynomial) => {
      const sign = polynomial.at(its).compare(Exact.zero);
      return sign < 0 ? below : sign > 0 ? above : zero;
    };
    return (
      !this.trace.pinned && this.trace.conditions.every(({ polynomial, signs }) => (signs & signOf(polynomial)) !== 0)
    );
  }
}

function isPlainObject(value: unknown): value is { [key: string]: unknown } {
  return typeof value === "object" && value !== null && Object.getPrototypeOf(value) === Object.prototype;
}

/** The same words at the same place of them; comments and blanks count, which only makes more of them different. */
function sayTheSame(one: Declaration | undefined, other: Declaration | undefined): boolean {
  if (!one || !other) return one === other;
  return one === other || (one.chunk.text === other.chunk.text && one.head.start === other.head.start);
}

/** What a site decides is asked of the policy; of its lines themselves only whether they could be read, and what is printed. */
function isSiteAlike(one: Declaration | undefined, other: Declaration | undefined): boolean {
  if (!one || !other || sayTheSame(one, other)) return one === other || (!!one && !!other);
  const [mine, its] = [one, other].map((site) => meaningOf(site).facts);
  const rest = (facts: readonly FactMeaning[]) =>
    facts
      .filter((f) => !f.isRead || !decidedWords.has(f.word))
      .map((f) => f.key)
      .sort()
      .join("\n");
  return rest(mine!) === rest(its!);
}

/** Words of the site whose values are asked of the policy alone (tested). */
export const decidedWords: ReadonlySet<string> = new Set(
  Object.keys(siteFacts).filter((word) => !["name", "note", "time-zone"].includes(word)),
);

function shelfText(lots: readonly LotOnShelf[]): string {
  return JSON.stringify(lots.map(({ lot, expires }) => [lot, expires]));
}

/** Equal values of a policy; of an unknown shape only the very same. */
function areAlike(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (typeof one !== "object" || typeof other !== "object" || !one || !other) return false;
  if (one instanceof Exact) return other instanceof Exact && one.key() === other.key();
  if (one instanceof Map) return other instanceof Map && areAlike([...one], [...other]);
  if (one instanceof Set) return other instanceof Set && areAlike([...one], [...other]);
  if (Array.isArray(one)) {
    return Array.isArray(other) && one.length === other.length && one.every((each, k) => areAlike(each, other[k]));
  }
  if (Object.getPrototypeOf(one) !== Object.prototype || Object.getPrototypeOf(other) !== Object.prototype)
    return false;
  return areAlike(Object.entries(one), Object.entries(other));
}
