/**
 * The steps of a program in words. Between the movements stands what a careful person does besides: reading labels, wiping, opening,
 * needles and connectors, expelling air, mixing, labelling. Nothing of that changes a figure.
 */
import { named } from "./facts.ts";
import { amountText, figureText } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type { Action, Condition, MaterialFact, Much, Program, StockFact } from "./program.ts";
import { carriedOut, type StepOutcome } from "./run.ts";

export interface WrittenSteps {
  lines: string[];
  /** Which of them each action is, from 0. */
  stepOf: number[];
  /** Needles, connectors and caps that the steps name, as lines of materials. */
  parts: string[];
}

export function stepsOf(program: Program): WrittenSteps {
  return new Writer(program).write();
}

class Writer {
  private readonly lines: string[] = [];
  /** Of each line the patients that it is for; absent for all. */
  private readonly only = new Map<number, string>();
  private readonly stepOf: number[] = [];
  private readonly parts: string[] = [];
  /** Syringe → the needle on it. */
  private readonly needles = new Map<string, string>();
  private readonly outcomes: readonly StepOutcome[];

  constructor(private readonly program: Program) {
    // What the steps come to decides only how small draws are said.
    let steps: readonly StepOutcome[] = [];
    try {
      steps = carriedOut(program, program.order.range?.to.value).steps;
    } catch {
      // A spoilt program is written as it stands.
    }
    this.outcomes = steps;
  }

  write(): WrittenSteps {
    const { program, lines } = this;
    const stocks = program.materials.filter(({ stock }, i) => stock && this.firstOf(i));
    lines.push(`check label and expiry of ${stocks.map(({ name }) => name).join(", ")}`);
    for (const { name } of stocks.filter((each) => this.stock(each)?.container === "ampoule")) {
      lines.push(`tap ${name}`, `disinfect ${name}`, `open ${name}`);
    }
    for (const [i, { name, syringe, count }] of program.materials.entries()) {
      if (!syringe || !this.firstOf(i) || !this.entersAnything(name)) continue;
      const needle = `needle-for-${name}`;
      this.parts.push(`${needle} ${count === undefined ? "" : `${count} x `}needle-18-gauge`);
      this.needles.set(name, needle);
      lines.push(`attach ${needle} to ${name}`);
    }
    for (const [i, action] of program.actions.entries()) {
      const from = lines.length;
      this.writeAction(action, i);
      if (action.when) for (let at = from; at < lines.length; at++) this.only.set(at, whenText(action.when).trim());
    }
    this.finish();
    return { lines: this.inBlocks(), stepOf: this.stepOf, parts: this.parts };
  }

  /** Of several lines of one name, each for some patients, whether this is the first. */
  private firstOf(i: number): boolean {
    const { materials } = this.program;
    return materials.findIndex(({ name }) => name === materials[i]!.name) === i;
  }

  private inBlocks(): string[] {
    let open: string | undefined;
    const all: string[] = [];
    for (const [i, line] of this.lines.entries()) {
      const only = this.only.get(i);
      if (only !== open && open) all.push("}");
      if (only !== open && only) all.push(`only ${only} {`);
      open = only;
      all.push(only ? `  ${line}` : line);
    }
    return all;
  }

  private stock({ stock }: MaterialFact): StockFact | undefined {
    return stock === undefined ? undefined : named(this.program.stocks, stock);
  }

  private material(name: string): MaterialFact {
    return named(this.program.materials, name);
  }

  private isSyringe(name: string): boolean {
    return this.material(name).syringe !== undefined;
  }

  private entersAnything(syringe: string): boolean {
    return this.program.actions.some((action) => {
      if ("using" in action && action.using === syringe) return true;
      if (action.do === "draw") return action.into === syringe && !this.isSyringe(action.from);
      if (action.do === "make-up") return action.into === syringe;
      return action.do === "inject" && action.from === syringe;
    });
  }

  /** Wipes what a needle or tubing is about to enter. */
  private wipe(...names: string[]): void {
    const entered = names.filter(
      (name) => !this.isSyringe(name) && this.stock(this.material(name))?.container !== "ampoule",
    );
    if (entered.length > 0) this.lines.push(`disinfect ${entered.join(", ")}`);
  }

  private pressure(...names: string[]): string {
    const kinds = names.map((name) => this.stock(this.material(name))?.container);
    return kinds.includes("vial") || kinds.includes("powder-vial") ? " at equal pressure" : "";
  }

  private step(text: string, { moves, movesMost, giving, givingOf }: Action): void {
    const range = moves && movesMost ? `${figureText(moves)} to ${figureText(movesMost)}` : moves && figureText(moves);
    this.stepOf.push(this.lines.length);
    this.lines.push(
      `${text}${range ? `  = ${range}` : ""}${giving ? `  giving ${givingOf ? `${givingOf} ` : ""}${amountText(giving)}` : ""}`,
    );
  }

  private writeAction(action: Action, i: number): void {
    const each = "each" in action && action.each ? "each of " : "";
    switch (action.do) {
      case "reconstitute":
        this.wipe(action.vials, action.from);
        this.step(
          `reconstitute ${each}${action.vials} with ${much(action.much)} from ${action.from} using ${action.using} at equal pressure`,
          action,
        );
        this.lines.push(`swirl ${action.vials} until dissolved`);
        return;
      case "draw":
        this.writeDraw(action, i, each);
        return;
      case "expel":
        this.step(`expel air from ${action.from} to ${figureText(action.much)}`, action);
        return;
      case "inject": {
        this.wipe(action.into);
        const how = action.much ? `${much(action.much)} from ` : "";
        this.step(`inject ${how}${action.from} into ${each}${action.into}${this.pressure(action.into)}`, action);
        this.mix(action.into);
        return;
      }
      case "add":
        this.wipe(action.from, action.into);
        this.step(
          `add ${much(action.much)} from ${action.from} to ${each}${action.into} using ${action.using}${this.pressure(action.from, action.into)}`,
          action,
        );
        this.mix(action.into);
        return;
      case "withdraw":
        this.wipe(action.from);
        this.step(`withdraw ${much(action.much)} from ${each}${action.from} using ${action.using} and discard`, action);
        return;
      case "make-up": {
        this.wipe(action.from, action.into);
        const using = action.using ? ` using ${action.using}` : "";
        this.step(`make up ${action.into} to ${much(action.much)} with ${action.from}${using}`, action);
        if (this.isSyringe(action.into)) this.lines.push(`expel air from ${action.into}`);
        this.mix(action.into);
        return;
      }
      case "transfer":
        this.wipe(action.from, action.into);
        this.step(
          `transfer ${much(action.much)} from ${action.from} to ${each}${action.into} using ${this.tubeFrom(action.from)}`,
          action,
        );
        if (!this.isSyringe(action.into)) this.mix(action.into);
        return;
      case "pool":
        this.wipe(action.from, action.into);
        this.step(`pool ${action.from} into ${action.into} using ${action.using} at equal pressure`, action);
        this.mix(action.into);
        return;
      case "fill":
        this.wipe(action.from, action.into);
        this.step(
          `fill ${each}${action.into} with ${much(action.much)} from ${action.from} using ${action.using}${this.pressure(action.from)}`,
          action,
        );
        this.mix(action.into);
        return;
      case "sample":
        this.wipe(action.from);
        this.step(`sample ${figureText(action.much)} from ${action.from} using ${action.using}`, action);
        this.lines.push(`label ${action.using}`);
        return;
      case "discard":
        this.step(`discard ${action.from}`, action);
        return;
      case "pass": {
        const needle = this.needles.get(action.from);
        if (needle) this.lines.push(`remove ${needle} from ${action.from}`);
        this.needles.delete(action.from);
        this.wipe(action.into);
        this.step(`pass ${action.from} through ${action.through} into ${action.into}`, action);
        this.lines.push(`test bubble-point of ${action.through}`);
        this.mix(action.into);
        return;
      }
      case "activate":
        this.step(`activate ${action.bag}`, action);
        return;
      case "prime":
        this.wipe(action.from);
        this.step(`prime ${action.set} with ${figureText(action.much)} from ${action.from}`, action);
        return;
      case "connect":
        this.wipe(action.to);
        this.step(`connect ${action.set} to ${action.to}`, action);
        this.lines.push(`clamp ${action.set}`);
        return;
      case "own-line":
        this.step(`prime line of ${action.of}`, action);
        return;
      case "skipped":
        throw new RangeError("a step for no patient is not written");
    }
  }

  /** Each source has tubing of its own. */
  private tubeFrom(source: string): string {
    const name = `tube-from-${source}`;
    if (!this.parts.includes(`${name} transfer-tubing`)) this.parts.push(`${name} transfer-tubing`);
    return name;
  }

  private writeDraw(action: Action & { do: "draw" }, i: number, each: string): void {
    const { lines } = this;
    const ends = this.isSyringe(action.from) ? `join-for-${action.into}` : undefined;
    if (ends) {
      this.parts.push(`${ends} syringe-connector`);
      const needle = this.needles.get(action.from);
      if (needle) lines.push(`remove ${needle} from ${action.from}`);
      this.needles.delete(action.from);
      lines.push(`connect ${action.from} to ${action.into} using ${ends}`);
    } else this.wipe(action.from);
    const moved = this.outcomes[i]?.moved;
    const targets = each ? (this.material(action.into).count ?? 1) : 1;
    const isSmall = moved !== undefined && moved.against(Fraction.of(targets)) <= 0;
    const counted = action.deadSpace ?? (isSmall ? "excluded" : undefined);
    this.step(
      `draw ${much(action.much)} from ${action.from} into ${each}${action.into}${action.onTop ? " on top" : ""}${this.pressure(action.from)}${counted ? ` dead-space ${counted}` : ""}`,
      action,
    );
    lines.push(`expel air from ${action.into}`);
    if (ends) lines.push(`remove ${ends} from ${action.from}`);
    if (action.onTop) this.mix(action.into);
  }

  private mix(name: string): void {
    const isLater = this.program.actions.findLast((action) => "into" in action && action.into === name);
    this.lines.push(`mix ${name} by inverting 10 times`);
    if (
      this.program.intermediates.some((each) => each.in === name) &&
      isLater === this.program.actions[this.stepOf.length - 1]
    ) {
      this.lines.push(`label ${name}`);
    }
  }

  private finish(): void {
    const { program, lines } = this;
    const { final } = program;
    const needle = this.needles.get(final);
    if (needle) lines.push(`remove ${needle} from ${final}`);
    if (this.isSyringe(final)) {
      const { count } = this.material(final);
      this.parts.push(`tip ${count === undefined ? "" : `${count} x `}tip-cap`);
      lines.push(`attach tip to ${final}`);
    }
    lines.push(`inspect ${final}`, `seal ${final}`, `label ${final}`);
    const gone = new Set(program.actions.flatMap((action) => (action.do === "discard" ? [action.from] : [])));
    const kept = program.materials
      .filter(({ set }, i) => !set && this.firstOf(i))
      .map(({ name }) => name)
      .filter((name) => name !== final && !gone.has(name));
    lines.push(`keep ${kept.join(", ")} for check`, "check by pharmacist");
  }
}

function much(asked: Much | "final-volume"): string {
  if (typeof asked === "string") return asked;
  if ("doseOf" in asked) return `dose of ${asked.doseOf}`;
  return "restOf" in asked ? `rest of ${asked.restOf}` : amountText(asked);
}

/** ` when dose above 1.5 g`; nothing for all patients. */
export function whenText(condition: Condition | undefined): string {
  if (!condition) return "";
  const ends = (["from", "above", "upTo", "below"] as const).flatMap((end) => {
    const at = condition[end];
    return at ? [`${end === "upTo" ? "up to" : end} ${figureText(at)}`] : [];
  });
  return ` when ${condition.of} ${ends.join(" ")}`;
}
