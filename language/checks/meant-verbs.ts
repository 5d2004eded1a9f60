/**
 * Words of the bench for what the steps call otherwise. They stand before any verb of near spelling: `invert` is two letters from
 * `inject`, and `cap` one from `tap`. Which word means which: common practice of worksheets, from memory.
 */
import { mixingVerbs } from "../bench/verbs/mixing.ts";
import type { Line } from "../syntax/tree.ts";

/** The verb takes the place of the word, and the line goes on as it is. */
const sameStep: Readonly<Record<string, readonly string[]>> = {
  check: ["confirm", "countersign", "sign", "verify", "witness"],
  tap: ["flick"],
  disinfect: ["clean", "sanitise", "sanitize", "swab", "wipe"],
  open: ["break", "snap"],
  attach: ["fit", "mount", "screw"],
  remove: ["detach", "unscrew"],
  replace: ["change", "exchange", "swap", "switch"],
  connect: ["couple", "join", "link"],
  draw: ["aspirate", "collect", "extract", "measure", "pull", "take"],
  inject: ["deliver", "instil", "instill", "push"],
  wait: ["allow", "pause", "rest", "stand"],
  inspect: ["examine", "look", "observe", "view"],
  seal: ["cap", "close", "crimp"],
  keep: ["retain", "save"],
  discard: ["bin", "dispose", "throw"],
};

const verbOf: ReadonlyMap<string, string> = new Map(
  Object.entries(sameStep).flatMap(([verb, words]) => words.map((word) => [word, verb])),
);

interface OtherForm {
  words: readonly string[];
  /** Verbs that do what is meant. */
  verbs: readonly string[];
  /** `THING` stands for what the line names behind its word. */
  text: string;
}

const mixed = (words: readonly string[], way: string): OtherForm => ({
  words,
  verbs: mixingVerbs,
  text: `Mixing is written with its way: \`mix THING by ${way}\`, and how often or until what.`,
});

/** What is written in another form altogether. */
const otherForms: readonly OtherForm[] = [
  mixed(["invert", "rotate"], "inverting"),
  mixed(["roll"], "rolling"),
  mixed(["agitate", "stir"], "swirling"),
  {
    words: ["affix", "apply", "stick"],
    verbs: ["label"],
    text: "Write `label` and the container; further lines stand in `label-text`.",
  },
  {
    words: ["cover", "wrap"],
    verbs: ["protect"],
    text: "Write `protect THING from light`, and `using` with the cover where one is put on.",
  },
  {
    words: ["filter"],
    verbs: ["attach", "pass"],
    text: "A filter sits on a syringe: write `attach`, the filter, `to`, the syringe; or `pass`, the syringe, `through`, the filter, `into`, the container.",
  },
  {
    words: ["dilute"],
    verbs: ["inject", "add", "make"],
    text: "Write what is done: `inject` or `add` into the diluent; or `make up`, the container, `to`, the final volume, `with`, the diluent.",
  },
  {
    words: ["weigh"],
    verbs: [],
    text: "What the finished container must weigh is claimed by `filled-weight` of its `preparation`.",
  },
  {
    words: ["freeze", "refrigerate", "store"],
    verbs: [],
    text: "Where it is kept stands in its `preparation`: `store` and `use-within`.",
  },
  {
    words: ["double", "double-check", "independent", "second"],
    verbs: ["check"],
    text: "Write `check by` and the role that checks, such as `check by pharmacist`; a second one is a step of its own.",
  },
  {
    words: ["administer", "give", "infuse"],
    verbs: [],
    text: "How it is given stands in `order`; the steps end when the container leaves the cabinet.",
  },
];

export interface MeantVerb {
  /** The verb to be put in the word's place; undefined where the step has another form. */
  verb?: string;
  /** A sentence that says what to write. */
  text: string;
}

/** @param line that begins with the word, where it was found */
export function meantVerb(word: string, line: Line | undefined): MeantVerb | undefined {
  const plain = word.toLowerCase();
  const verb = verbOf.get(plain);
  if (verb !== undefined) return { verb, text: `Write \`${verb}\`.` };
  const form = otherForms.find(({ words }) => words.includes(plain));
  if (!form) return undefined;
  const thing = line?.tokens[1];
  return { text: form.text.replaceAll("THING", thing?.kind === "word" ? thing.text : "bag") };
}

/** The verbs that do what a step of this word means; undefined where no row knows the word. */
export function verbsMeant(word: string): readonly string[] | undefined {
  const plain = word.toLowerCase();
  const verb = verbOf.get(plain);
  return verb === undefined ? otherForms.find(({ words }) => words.includes(plain))?.verbs : [verb];
}

/** For tests: each word that a row knows, with the verbs that it leads to. */
export const wordsForVerbs: readonly (readonly [word: string, verbs: readonly string[]])[] = [
  ...[...verbOf].map(([word, verb]) => [word, [verb]] as const),
  ...otherForms.flatMap(({ words, verbs }) => words.map((word) => [word, verbs] as const)),
];
