/**
 * What a careful colleague would have noticed, as facts with places and figures, no words. Each kind is taken up by the check
 * that names it. The bench notes them where they happen, in the shared actions (draw, push, enter …), so that every verb is
 * watched alike.
 */

import type { Spot } from "../model/slots.ts";
import type { Exact } from "../quantities/exact.ts";
import type { Refusal } from "../quantities/quantity.ts";
import type { Liquid } from "./liquid.ts";
import type { StepRun } from "./step-run.ts";
import type { Part, Thing, Vessel } from "./things.ts";
import type { MixingEnd } from "./verbs/mixing.ts";

export interface HappeningData {
  // volumes
  "draw-beyond-content": { vessel: Vessel; asked: Exact; held: Exact };
  "draw-beyond-syringe": { syringe: Vessel; asked: Exact; already: Exact; capacity: Exact };
  "too-small-to-measure": { syringe: Vessel; asked: Exact; smallest: Exact };
  "syringe-too-full": { syringe: Vessel; total: Exact; most: Exact };
  "not-on-graduation": {
    syringe: Vessel;
    asked: Exact;
    reading: Exact;
    interval: Exact;
    stated: boolean;
    byLabel: boolean;
    how: "drawn" | "pushed" | "kept";
  };
  "container-overfilled": { vessel: Vessel; volume: Exact; capacity: Exact };
  "too-few-containers": { name: string; stated: number; needed: number };
  "nothing-to-push": { syringe: Vessel };
  "push-beyond-content": { syringe: Vessel; asked: Exact; held: Exact };
  "small-dose-dead-space-not-said": { syringe: Vessel; volume: Exact };
  "whole-content-drawn": { vessel: Vessel };
  "amount-not-computable": {
    why: Refusal | "no-strength" | "no-order" | "no-powder-volume" | "not-in-container" | "emptied" | "content-unread";
    vessel: Vessel | undefined;
    drug: string;
  };
  "drawn-form-not-said": { vessel: Vessel; amount: string; form: string; base: string | undefined };
  /** `remedy`: what to do about it, where it is not to state the figure in the order or the stock. */
  "figure-not-known": { figure: string; why: string; remedy?: string };
  "volume-below-zero": { vessel: Vessel; wanted: Exact; held: Exact };
  // technique
  "ampoule-not-opened": { vessel: Vessel };
  "opened-not-ampoule": { vessel: Vessel };
  "ampoule-not-disinfected": { vessel: Vessel };
  "ampoule-not-tapped": { vessel: Vessel };
  "tip-occupied": { syringe: Vessel; by: Part; part: Part };
  "vented-spike-in-bag": { vessel: Vessel; part: Part };
  "opened-twice": { vessel: Vessel; first: StepRun };
  "entry-not-disinfected": { vessel: Vessel };
  "no-needle-attached": { syringe: Vessel; other: Vessel };
  /** A connector joins one of the two to a third. */
  "joined-to-another": { part: Part; of: Vessel; joined: Vessel; other: Vessel };
  "filter-used-both-ways": { filter: Part; first: { way: "drawn" | "pushed"; step: StepRun }; way: "drawn" | "pushed" };
  "filter-tested-before-use": { filter: Part };
  "filter-shared": { filter: Part; allowed: number };
  "glass-not-filtered": { target: Vessel; drugs: readonly string[] };
  "passed-filter": { filter: Part; drug: string };
  "air-into-ampoule": { vessel: Vessel };
  "no-equal-air": { vessel: Vessel; volume: Exact };
  "vial-under-pressure": { vessel: Vessel; volume: Exact; cause: "air" | "diluent" };
  "hazardous-equal-air": { vessel: Vessel; volume: Exact };
  "needle-too-many-punctures": { needle: Part; punctures: number; most: number };
  "needle-wiped": { part: Part };
  "second-drug-in-syringe": { syringe: Vessel; had: string[]; now: string };
  "returned-to-stock": { vessel: Vessel; syringe: Vessel };
  "drawn-before-dissolved": { vessel: Vessel; since: StepRun };
  /** `way`: out of a syringe, in part. */
  "drawn-before-mixed": { vessel: Vessel; since: StepRun; way?: "pushed" | "expelled" };
  "added-before-mixed": { vessel: Vessel; since: StepRun };
  "left-unmixed": { vessel: Vessel; since: StepRun; next: "label" | "seal" | "inspect" | "end" };
  shaken: { vessel: Vessel; drug: string };
  "swirled-nothing": { vessel: Vessel; end: MixingEnd };
  "swirled-to-other-end": { vessel: Vessel; drug: string; end: MixingEnd; nature: string | undefined };
  "started-unready": { vessel: Vessel; lacks: "label" | "check" };
  "added-while-running": { vessel: Vessel; since: StepRun };
  "added-to-premixed": { vessel: Vessel };
  "bags-in-series": { first: Vessel; second: Vessel };
  "touched-after-seal": { vessel: Vessel; since: StepRun };
  "used-after-discard": { thing: Thing; since: StepRun };
  "discarded-before-check": { thing: Thing };
  "preparation-discarded": { thing: Thing };
  "labelled-before-filled": { vessel: Vessel; since: StepRun };
  "labelled-twice": { vessel: Vessel; first: StepRun };
  "high-alert-added-unchecked": { drug: string; target: Vessel; drawn: StepRun | undefined };
  "high-alert-hidden-unchecked": { drug: string; syringe: Vessel; drawn: StepRun };
  "air-not-expelled": { syringe: Vessel; drawn: StepRun; target: Vessel };
  "checked-with-air": { syringe: Vessel; drawn: StepRun | undefined };
  "spike-forbidden": { vessel: Vessel; part: Part };
  "hazardous-not-closed": { vessel: Vessel; part: Part; drug: string };
  "transfer-device-on-ampoule": { vessel: Vessel; part: Part };
  "prime-after-drug": { vessel: Vessel };
  "already-attached": { syringe: Vessel; part: Part; to: Vessel };
  "not-attached": { syringe: Vessel; part: Part };
  "wrong-kind-of-thing": { thing: Thing; needed: string };
  /** Whether the step may say `each of` there: not of what it takes from. */
  "not-each-of": { name: string; count: number; each: boolean };
  "reconstituted-otherwise": { vessel: Vessel; volume: Exact; label: Exact };
  "reconstituted-with-other-fluid": { vessel: Vessel; fluid: string; label: string };
  "reconstituted-no-powder": { vessel: Vessel };
  "displacement-ignored": { vessel: Vessel };
  "displacement-negative": { vessel: Vessel; implied: Exact };
  "gives-and-displacement-differ": { vessel: Vessel; fromGives: Exact; fromDisplacement: Exact };
  // meetings, for compatibility and the order of mixing: one for every addition
  addition: {
    vessel: Vessel;
    drugs: readonly string[];
    fluids: readonly string[];
    present: { drugs: readonly string[]; fluids: readonly string[]; volume: Exact };
    /** What the vessel holds once it is in: solubility is judged here, not at the final volume. */
    after: Liquid;
  };
  // structure
  "unknown-thing": { name: string };
}

export type HappeningKind = keyof HappeningData;

export type Happening<K extends HappeningKind = HappeningKind> = {
  [P in K]: { kind: P; step: StepRun; spot: Spot; data: HappeningData[P] };
}[K];
