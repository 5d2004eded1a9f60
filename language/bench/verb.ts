/**
 * A verb is one unit: its form, what it does at the bench, the sentence and the cautions that it prints. Everything about
 * a verb is in its one file.
 */
import { type Form, form, type Slots } from "../model/form.ts";
import type { Bench } from "./bench.ts";
import type { StepRun } from "./step-run.ts";

/** A caution that belongs to a step. `row` is the practice rule it prints, from the published table. */
export interface Caution {
  text: string;
  /** Ids of practice rules that this caution answers. */
  rows?: readonly string[];
  /** Printed only for these situations; always when absent. */
  when?:
    | "ampoule"
    | "hazardous"
    | "horizontal-flow"
    | "small-dose"
    | "bag"
    | "port-again"
    | "vial"
    | "needle-in-vial"
    | "filter"
    | "sharp";
}

export interface Verb<F extends string = string> {
  word: string;
  form: Form<F>;
  /** What it is for, one sentence for hover and the reference. */
  about: string;
  /** Moves liquid: of a container that it names and that does not stand there, nothing that follows can be known. */
  moves: boolean;
  act(bench: Bench, slots: Slots<F>, run: StepRun): void;
  /** The sentence on the sheet. */
  sentence(slots: Slots<F>, run: StepRun): string;
  cautions: readonly Caution[];
}

interface VerbParts<F extends string> {
  word: string;
  form: F;
  about: string;
  moves?: true;
  act(bench: Bench, slots: Slots<F>, run: StepRun): void;
  sentence(slots: Slots<F>, run: StepRun): string;
  cautions?: readonly Caution[];
}

export function verb<const F extends string>(parts: VerbParts<F>): Verb<F> {
  return { ...parts, form: form(parts.form), moves: parts.moves ?? false, cautions: parts.cautions ?? [] };
}
