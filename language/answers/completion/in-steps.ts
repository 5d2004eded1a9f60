/** The steps: whole lines that are likely next, verbs, what a verb awaits, and the figures that a step leaves to be stated. */
import { pointAt } from "../../bench/order.ts";
import { claimForms } from "../../bench/plan.ts";
import { verbsByWord } from "../../bench/verbs/index.ts";
import { looseWord } from "../../model/form-match.ts";
import type { Token } from "../../syntax/tree.ts";
import { type Awaited, awaitedAfter } from "../awaited.ts";
import { nextSteps } from "../next-step.ts";
import { derivedMoves } from "../stated-figures.ts";
import { type Asked, put } from "./asked.ts";
import { offerAwaited } from "./in-form.ts";

export function inSteps(asked: Asked): void {
  const { row, recipe, library, place } = asked;
  const first = row.before[0];
  const lineStart = first?.start ?? row.start;
  if (recipe) {
    const done = recipe.steps.filter((s) => s.end < lineStart).length;
    const written = place.chunk.text.slice(lineStart, place.at).replace(/\s+/g, " ");
    for (const line of nextSteps(library, recipe, done, asked.peers, row.before)) {
      if (line.startsWith(written) && line !== written)
        put(asked, line, "line", { start: lineStart, end: Math.max(row.end, place.at) });
    }
  }
  if (!first) {
    for (const [word, verbs] of verbsByWord) put(asked, word, "verb", { detail: verbs[0]!.about });
    put(asked, "only when", "word");
    return;
  }
  const word = looseWord(first);
  if (word === undefined) return;
  const claim = lastClaim(row.before);
  if (claim) {
    for (const text of derivedMoves(library, recipe, place.at)) put(asked, text, "value");
    for (const one of awaitedAfter(claimForms[claim.kind].start, claim.tokens)) {
      // The figure itself is offered as it comes out; behind it stand the unit, `as` and the form.
      if (one.kind === "unit" || one.kind === "word" || one.slot === "as") offerAwaited(asked, [one], word);
    }
    return;
  }
  for (const verb of verbsByWord.get(word) ?? []) {
    const open = awaitedAfter(verb.form.start, row.before.slice(1));
    if (open.some((a) => a.kind === "end") && row.typed === "") {
      for (const text of derivedMoves(library, recipe, place.at)) put(asked, `= ${text}`, "value");
    }
    offerDose(asked, open);
    offerAwaited(asked, open, word);
  }
}

/** The ordered dose as it is written, where a step may take an amount. */
function offerDose(asked: Asked, open: readonly Awaited[]): void {
  const order = asked.recipe?.order;
  if (!order || !open.some((a) => a.kind === "slot" && a.type === "measure" && a.slot === "amount")) return;
  const ranged = pointAt(asked.recipe!, "from").size > 0;
  for (const dose of [...order.all("dose"), ...order.all("additive")]) {
    put(asked, ranged ? "dose" : dose.slots.dose.written, "value");
  }
}

function lastClaim(tokens: readonly Token[]): { kind: keyof typeof claimForms; tokens: Token[] } | undefined {
  for (let i = tokens.length - 1; i > 0; i--) {
    const token = tokens[i]!;
    const kind =
      token.kind === "equals" ? "moves" : token.text === "giving" || token.text === "leaving" ? token.text : undefined;
    if (kind) return { kind, tokens: tokens.slice(i + 1) };
  }
  return undefined;
}
