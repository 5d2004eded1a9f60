/** Matches each step to its verb, once for a recipe: the plan is then run as often as needed (for each count, order point, overfill). */
import type { Recipe, Step } from "../model/declaration.ts";
import type { Problem } from "../model/facts.ts";
import { form } from "../model/form.ts";
import { isMisfit, looseWord, matchForm } from "../model/form-match.ts";
import { showForm } from "../model/form-shown.ts";
import { keptWith } from "../model/kept-with.ts";
import { nearNames } from "../model/near.ts";
import { capitals } from "../model/read-facts.ts";
import type { MeasureSlot, NameSlot, RangeSlot } from "../model/slots.ts";
import type { Token } from "../syntax/tree.ts";
import type { Claim } from "./step-run.ts";
import type { Verb } from "./verb.ts";
import { verbsByWord } from "./verbs/index.ts";

export interface PlannedStep {
  step: Step;
  verb: Verb;
  slots: unknown;
  claims: readonly Claim[];
}

export interface Plan {
  steps: PlannedStep[];
  problems: Problem[];
  /** A step could not be read: what follows from the steps cannot be judged as a whole. */
  broken: boolean;
}

export const planOf = keptWith(makePlan);

function makePlan(recipe: Recipe): Plan {
  const plan: Plan = { steps: [], problems: [], broken: false };
  for (const step of recipe.steps) {
    const planned = planStep(step, plan.problems);
    if (planned) plan.steps.push(planned);
    else plan.broken = true;
  }
  return plan;
}

function planStep(step: Step, problems: Problem[]): PlannedStep | undefined {
  const first = step.tokens[0]!;
  const word = looseWord(first);
  const verbs = word === undefined ? undefined : verbsByWord.get(word);
  if (!verbs || word === undefined) {
    problems.push({
      name: "unknown-verb",
      start: first.start,
      end: first.end,
      data: { word: first.text, near: nearNames(first.text, verbsByWord.keys()), fault: first.fault ?? "" },
    });
    return undefined;
  }
  if (first.text !== word) problems.push(capitals(first, word));
  const { own, claims, fault } = splitClaims(step.tokens);
  if (fault) {
    problems.push(misfit(step, fault.at, fault.expected, verbs[0]!));
    return undefined;
  }
  let best: { at: number; expected: string[]; verb: Verb } | undefined;
  for (const verb of verbs) {
    const match = matchForm(verb.form, own, 1);
    if (!isMisfit(match)) {
      for (const token of match.loose) problems.push(capitals(token, looseWord(token) ?? token.text));
      return { step, verb, slots: match.slots, claims };
    }
    if (!best || match.at > best.at) best = { ...match, verb };
  }
  problems.push(misfit({ ...step, tokens: own }, best!.at, best!.expected, best!.verb));
  return undefined;
}

function misfit(step: Step, at: number, expected: string[], verb: Verb): Problem {
  const token = step.tokens[at];
  const last = step.tokens.at(-1)!;
  return {
    name: "step-not-understood",
    start: token?.start ?? last.end,
    end: token?.end ?? last.end,
    data: {
      form: `${verb.word} ${showForm(verb.form.text)}`,
      expected: expected.join(" or "),
      found: token?.text ?? "",
      fault: token?.fault ?? "",
    },
  };
}

export const claimForms = {
  moves: form("<value:range>"),
  giving: form("[<drug?:name>] <value:measure> [as <as?:name>]"),
  leaving: form("[<drug?:name>] <value:measure> [as <as?:name>]"),
};

interface Split {
  own: Token[];
  claims: readonly Claim[];
  fault: { at: number; expected: string[] } | undefined;
}

const noClaims: readonly Claim[] = [];

/** Parts the claims (`= 8 mL`, `giving 25 mcg/mL`, `leaving 2 mL`) from the instruction left of them. */
function splitClaims(tokens: Token[]): Split {
  const starts: number[] = [];
  for (let i = 1; i < tokens.length; i++) if (claimKind(tokens[i]!)) starts.push(i);
  if (starts.length === 0) return { own: tokens, claims: noClaims, fault: undefined };
  const claims: Claim[] = [];
  const split: Split = { own: tokens.slice(0, starts[0]), claims, fault: undefined };
  starts.forEach((start, k) => {
    const kind = claimKind(tokens[start]!)!;
    const part = tokens.slice(start + 1, starts[k + 1] ?? tokens.length);
    const match = matchForm(claimForms[kind], part);
    if (isMisfit(match)) {
      split.fault ??= { at: start + 1 + match.at, expected: match.expected };
      return;
    }
    const { value, as, drug } = match.slots as { value: MeasureSlot | RangeSlot; as?: NameSlot; drug?: NameSlot };
    const range = "from" in value ? value : { from: value, to: value, isRange: false };
    const spot = { start: tokens[start]!.start, end: (as ?? value).end };
    claims.push({ kind, from: range.from, to: range.to, isRange: range.isRange, as, drug, spot });
  });
  return split;
}

function claimKind(token: Token): Claim["kind"] | undefined {
  if (token.kind === "equals") return "moves";
  if (token.kind === "word" && (token.text === "giving" || token.text === "leaving")) return token.text;
  return undefined;
}
