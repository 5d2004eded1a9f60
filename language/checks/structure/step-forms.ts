/** What is meant by a step that does not fit its verb, where a recipe says it otherwise; the step is not read. */
import type { Problem } from "../../model/facts.ts";
import { findUnit } from "../../quantities/unit.ts";
import type { Line } from "../../syntax/tree.ts";
import { word } from "../problems.ts";
import type { OrderForm } from "./order-forms.ts";

type Row = readonly [pattern: RegExp, text: string];

const untilEnds =
  "Write `until`, and one of `dissolved`, `suspended` and `clear`; a time may follow, such as `up to 5 min`.";
const oftenByMix =
  "How often it is done is said by `mix`: write `mix`, the container, `by` and how, such as `inverting 10 times`.";

/** What `swirl` and `shake` are done until, and what is said otherwise. */
const untilRows: readonly Row[] = [
  [/^\d+ times?\b/, oftenByMix],
  [
    /^by /,
    "How it is done is said by `mix`: write `mix`, the container, `by` and how, and behind that `until` as it stands here.",
  ],
  [/^foam\b/, "Foam is waited for. Write `until dissolved` here, and `wait until foam has settled` as the next step."],
  [/^(?:[a-z]|$)/, untilEnds],
];

/** `add syringe to bag`. */
const heldBySyringe: Row = [
  /^(?!(?:each|dose|diluent-volume|all|rest)\b)[a-z][\w-]* (?:to|into)\b/,
  "`add` and `transfer` take an amount from a container. What a syringe holds already goes in by `inject`: write `inject`, the syringe, `into`, the container.",
];

/** `draw 1 g phenytoin from amps`, `transfer 400 mL water to bag`. */
const namedBehindAmount: readonly Row[] = [
  [
    /^[a-z][\w-]* from\b/,
    "What is drawn is known from the container. Leave the name of the drug out; of an ion write `of` in front of it, of a salt `as`.",
  ],
  [
    /^[a-z][\w-]* (?:to|into)\b/,
    "`from` is missing: it stands between the amount and the container that it is drawn from.",
  ],
];

/** By the verb; the pattern is that of the line from the word that does not fit. */
const tables: Readonly<Record<string, readonly Row[]>> = {
  add: [heldBySyringe],
  transfer: [heldBySyringe],
  withdraw: [
    [
      /^into /,
      "`withdraw` takes fluid out of a bag and throws it away. Write `using`, the syringe, `and discard`. What goes into a syringe to be given is drawn: write `draw` with the amount, `from`, the container, `into`, the syringe.",
    ],
  ],
  fill: [
    [
      /^to /,
      "To a final volume something is made up: write `make up`, the container, `to`, the volume, `with`, the liquid and `using`.",
    ],
    [
      /^(?:using |$|[a-z][\w-]*$)/,
      "`fill` draws and fills in one step, from a container: write the amount, `from` and `using`. What a syringe holds already goes in by `inject`.",
    ],
  ],
  swirl: untilRows,
  shake: untilRows,
  mix: [
    [
      /^(?:until|\d+ times?\b|up to|$)/,
      "A mixing says how: write `by` and one of `inverting`, `rolling`, `swirling`, `shaking` and `drawing back and forth`; behind it how often, or `until dissolved`, `until suspended` or `until clear`.",
    ],
    [
      /^(?:for |\d|min\b|s\b|h\b)/,
      "A mixing is counted, or done until an end is seen: write `10 times`, or `until dissolved`, `until suspended` or `until clear`, with `up to` a time where there is one.",
    ],
  ],
  dissolve: [
    [
      /^(?:until|by) /,
      "`dissolve` says what comes of it, and not how. Write it without more, with `up to` a time; or `swirl`, `shake` or `mix` with `until dissolved`.",
    ],
  ],
  draw: [
    [
      /^(?:into|in|to) /,
      "Where it is drawn from is said by `from`: write the amount, `from`, the container, `into`, the syringe.",
    ],
    [/^\(/, "What the step must move stands behind it: write `=` and the volume at the end of the line."],
    [
      /^, /,
      "A draw fills one syringe, or each of a set. Write a draw for each; or make them one set in `materials`, such as `syringes  4 x syringe-10mL`, and draw `into each of` it.",
    ],
    [
      /^(?:final-volume|lumen|rest|remainder|remaining)\b/,
      "A step draws a figure, the ordered `dose`, the `rest of dose` or `all`; of several drugs `dose of` or `rest of` the one that is meant. Write one of them.",
    ],
  ],
};

/** Undefined where no row knows it. */
export function stepForm(problem: Problem, line: Line | undefined): OrderForm | undefined {
  const tokens = line?.tokens ?? [];
  const table = tables[tokens[0]?.text ?? ""];
  if (!table) return undefined;
  const at = word(problem, "found") === "" ? tokens.length : tokens.findIndex((t) => t.start === problem.start);
  const rest = tokens
    .slice(Math.max(0, at))
    .map((t) => t.text)
    .join(" ");
  const isBehindAmount = at > 2 && findUnit(tokens[at - 1]!.text).unit !== undefined;
  const rows = isBehindAmount ? [...namedBehindAmount, ...table.filter((row) => row !== heldBySyringe)] : table;
  const row = rows.find(([pattern]) => pattern.test(rest));
  return row && { text: row[1] };
}
