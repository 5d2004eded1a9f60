/** All verbs. A first word with two forms (check, check by) has two entries, tried in this order. */
import type { Verb } from "../verb.ts";
import { activate } from "./activate.ts";
import { add } from "./add.ts";
import { attach } from "./attach.ts";
import { check } from "./check.ts";
import { checkBy } from "./check-by.ts";
import { clamp } from "./clamp.ts";
import { connect } from "./connect.ts";
import { discard } from "./discard.ts";
import { disinfect } from "./disinfect.ts";
import { dissolve } from "./dissolve.ts";
import { draw } from "./draw.ts";
import { expel } from "./expel.ts";
import { fill } from "./fill.ts";
import { inject } from "./inject.ts";
import { inspect } from "./inspect.ts";
import { keep } from "./keep.ts";
import { label } from "./label.ts";
import { makeUp } from "./make-up.ts";
import { mix } from "./mix.ts";
import { note } from "./note.ts";
import { open } from "./open.ts";
import { pass } from "./pass.ts";
import { pool } from "./pool.ts";
import { prime } from "./prime.ts";
import { protect } from "./protect.ts";
import { reconstitute } from "./reconstitute.ts";
import { remove } from "./remove.ts";
import { replace } from "./replace.ts";
import { sample } from "./sample.ts";
import { seal } from "./seal.ts";
import { shake } from "./shake.ts";
import { start } from "./start.ts";
import { sterilise } from "./sterilise.ts";
import { swirl } from "./swirl.ts";
import { tap } from "./tap.ts";
import { testFilter } from "./test-filter.ts";
import { transfer } from "./transfer.ts";
import { wait } from "./wait.ts";
import { withdraw } from "./withdraw.ts";

// biome-ignore lint/suspicious/noExplicitAny: verbs have forms of every shape; each is typed in its own file
type AnyVerb = Verb<any>;

export const allVerbs: readonly AnyVerb[] = [
  check,
  checkBy,
  tap,
  disinfect,
  open,
  attach,
  remove,
  replace,
  connect,
  draw,
  expel,
  inject,
  add,
  reconstitute,
  swirl,
  shake,
  dissolve,
  wait,
  withdraw,
  pool,
  sample,
  transfer,
  fill,
  prime,
  clamp,
  activate,
  makeUp,
  mix,
  inspect,
  pass,
  testFilter,
  seal,
  sterilise,
  protect,
  label,
  keep,
  discard,
  start,
  note,
];

/** First word → its verbs. */
export const verbsByWord: ReadonlyMap<string, readonly AnyVerb[]> = (() => {
  const map = new Map<string, AnyVerb[]>();
  for (const v of allVerbs) map.set(v.word, [...(map.get(v.word) ?? []), v]);
  return map;
})();
