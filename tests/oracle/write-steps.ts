/**
 * The steps of a program in words. Between the movements stands what a careful person does besides: reading labels, wiping, opening,
 * needles and connectors, expelling air, mixing, labelling. Nothing of that changes a figure.
 */
import { named } from "./facts.ts";
import { amountText, figureText } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type { Action, MaterialFact, Much, Program, StockFact } from "./program.ts";
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
  private readonly stepOf: number[] = [];
  private readonly parts: string[] = [];
  /** Syringe → the needle on it. */
  private readonly needles = new Map<string, string>();
  private readonly outcomes: readonly StepOutcome[];

  constructor(private readonly program: Program) {
    // What the steps come to decides only how small draws are said.
    let steps: readonly StepOutcome[] = [];
    try {
      steps = carriedOut(program, program.order.weight?.to.value).steps;
    } catch {
      // A spoilt program is written as it stands.
    }
    this.outcomes = steps;
  }

  write(): WrittenSteps {
    const { program, lines } = this;
    const stocks = program.materials.filter(({ stock }) => stock);
    lines.push(`check label and expiry of ${stocks.map(({ name }) => name).join(", ")}`);
    for (const { name } of stocks.filter((each) => this.stock(each)?.container === "ampoule")) {
      lines.push(`tap ${name}`, `disinfect ${name}`, `open ${name}`);
    }
    for (const { name, syringe, count } of program.materials) {
      if (!syringe || !this.entersAnything(name)) continue;
      const needle = `needle-for-${name}`;
      this.parts.push(`${needle} ${count === undefined ? "" : `${count} x `}needle-18-gauge`);
      this.needles.set(name, needle);
      lines.push(`attach ${needle} to ${name}`);
    }
    for (const [i, action] of program.actions.entries()) this.writeAction(action, i);
    this.finish();
    return { lines, stepOf: this.stepOf, parts: this.parts };
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

  private step(text: string, { moves, movesMost, giving }: Action): void {
    const range = moves && movesMost ? `${figureText(moves)} to ${figureText(movesMost)}` : moves && figureText(moves);
    this.stepOf.push(this.lines.length);
    this.lines.push(`${text}${range ? `  = ${range}` : ""}${giving ? `  giving ${figureText(giving)}` : ""}`);
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
        this.step(`make up ${action.into} to ${figureText(action.much)} with ${action.from}${using}`, action);
        if (this.isSyringe(action.into)) this.lines.push(`expel air from ${action.into}`);
        this.mix(action.into);
        return;
      }
      case "transfer":
        this.wipe(action.from, action.into);
        if (!this.parts.includes("tube transfer-tubing")) this.parts.push("tube transfer-tubing");
        this.step(`transfer ${much(action.much)} from ${action.from} to ${each}${action.into} using tube`, action);
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
          `fill ${action.into} with ${much(action.much)} from ${action.from} using ${action.using}${this.pressure(action.from)}`,
          action,
        );
        return;
      case "sample":
        this.wipe(action.from);
        this.step(`sample ${figureText(action.much)} from ${action.from} using ${action.using}`, action);
        this.lines.push(`label ${action.using}`);
        return;
      case "discard":
        this.step(`discard ${action.from}`, action);
    }
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
    this.step(
      `draw ${much(action.much)} from ${action.from} into ${each}${action.into}${action.onTop ? " on top" : ""}${this.pressure(action.from)}${isSmall ? " dead-space excluded" : ""}`,
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
    const kept = program.materials.map(({ name }) => name).filter((name) => name !== final && !gone.has(name));
    lines.push(`keep ${kept.join(", ")} for check`, "check by pharmacist");
  }
}

function much(asked: Much): string {
  return typeof asked === "string" ? asked : amountText(asked);
}
