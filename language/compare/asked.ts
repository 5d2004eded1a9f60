/**
 * Notes what is asked of a library and of its site's policy while something is worked out, so that it is known whether the same work
 * on another library would come to the same.
 *
 * Invariant: what is worked out from a recipe's text, a day and these answers alone is the same on both sides where the text, the day
 * and every answer are the same. Answers are compared by what they say; where that cannot be told, they count as different.
 */
import type { Library } from "../library.ts";
import { dateText } from "../model/dates.ts";
import type { Declaration, DeclarationKind } from "../model/declaration.ts";
import type { DeclarationOf, Lookup, LotOnShelf } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import { Exact } from "../quantities/exact.ts";

type Surroundings = ReturnType<Library["surroundings"]>;

export class Asked {
  /** To work with in the place of the library's own. */
  readonly around: Surroundings;
  /** By question: whether the answer is the same in these surroundings. */
  private readonly questions = new Map<string, (other: Surroundings) => boolean>();

  constructor({ lookup, policy, asOf }: Surroundings) {
    const { questions } = this;
    const note = (question: string, isSame: (other: Surroundings) => boolean): void => {
      if (!questions.has(question)) questions.set(question, isSame);
    };
    this.around = { lookup: noting(lookup, note), policy: notingPolicy(policy, note), asOf };
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
    site() {
      const found = lookup.site();
      note("site", (other) => sayTheSame(found, other.lookup.site()));
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

function notingPolicy(policy: Policy, note: Note): Policy {
  const view = {};
  for (const field of Object.keys(policy) as (keyof Policy)[]) {
    const get = () => {
      note(`policy ${field}`, (other) => areAlike(policy[field], other.policy[field]));
      return policy[field];
    };
    Object.defineProperty(view, field, { get, enumerable: true });
  }
  return view as Policy;
}

/** The same words at the same place of them; comments and blanks count, which only makes more of them different. */
function sayTheSame(one: Declaration | undefined, other: Declaration | undefined): boolean {
  if (!one || !other) return one === other;
  return one === other || (one.chunk.text === other.chunk.text && one.head.start === other.head.start);
}

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
