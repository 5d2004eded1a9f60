/**
 * Forms: the shape of a statement, written as the author would write it.
 *
 *   draw <amount:measure> from <source:names> into <syringe:name> [<onTop?:on top>]
 *
 * Bare words stand for themselves, `<slot:type>` takes something, `[…]` may be left out, `( … | … )` is one of several.
 * A slot inside brackets ends in `?`. Types: name, names (with commas), measure, strength (`50 mg/mL`, or as some labels have it `125 mg in 3 mL`), range, number, text, date, bound,
 * condition, source; anything else is a choice of phrases parted by `|`. One form serves for reading, for the message when a
 * line does not fit, for completion and for the documentation, so that they cannot differ.
 */
import type { Token } from "../syntax/tree.ts";
import { compileForm, type FormNode } from "./form-compile.ts";
import type {
  BoundSlot,
  ChoiceSlot,
  ConditionSlot,
  DateSlot,
  MeasureSlot,
  NameSlot,
  NumberSlot,
  RangeSlot,
  SourceSlot,
  TextSlot,
} from "./slots.ts";

interface SlotTypes {
  name: NameSlot;
  names: NameSlot[];
  measure: MeasureSlot;
  strength: MeasureSlot;
  range: RangeSlot;
  number: NumberSlot;
  text: TextSlot;
  date: DateSlot;
  bound: BoundSlot;
  condition: ConditionSlot;
  source: SourceSlot;
}

type Choices<T extends string> = T extends `${infer A}|${infer B}` ? A | Choices<B> : T;
type SlotOf<T extends string> = T extends keyof SlotTypes ? SlotTypes[T] : ChoiceSlot<Choices<T>>;

/** The slots of a form, read from its text: optional ones end in `?`. */
export type Slots<F extends string> = F extends `${string}<${infer N}:${infer T}>${infer Rest}`
  ? (N extends `${infer O}?` ? { [K in O]?: SlotOf<T> } : { [K in N]: SlotOf<T> }) & Slots<Rest>
  : unknown;

export interface Form<F extends string = string> {
  readonly text: F;
  readonly start: FormNode;
}

export function form<const F extends string>(text: F): Form<F> {
  return { text, start: compileForm(text) };
}

export type { FormNode };

/** What stood where a form could not go on. `at` is the index of the token, or the count of tokens when the line ended early. */
export interface Misfit {
  at: number;
  expected: string[];
}

export interface Match<F extends string> {
  slots: Slots<F>;
  /** Tokens that were read although written with capitals or as a sign (`@` for at). */
  loose: Token[];
}
