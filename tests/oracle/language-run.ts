/** The language's side: the text through its own door, and what its bench says that every container holds at the end. */
import type { Overfill } from "../../language/bench/overfill.ts";
import { type Run, runRecipe } from "../../language/bench/run.ts";
import { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import { orderPoint } from "../../language/sheet/order-point.ts";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";
import type { Finding } from "../../shared/finding.ts";

const file = "prepared.misce";

export class Told {
  private readonly library: Library;

  constructor(text: string) {
    this.library = new Library({ asOf: "2026-11-25" });
    this.library.open(file, text);
  }

  get findings(): readonly Finding[] {
    return this.library.findings(file);
  }

  /** The order for one body weight in kg, or one body surface in m2. */
  point(of: "weight" | "body-surface", value: string): Run["point"] {
    const at = orderPoint(this.recipe, new Map([[of, `${value} ${of === "weight" ? "kg" : "m2"}`]]));
    if (isSheetRefusal(at)) throw new Error(at.refusal);
    return at;
  }

  private get recipe(): Recipe {
    return this.library.ofKind("recipe")[0] as Recipe;
  }

  /** A strength as a ratio is an error by its notation alone, and read all the same. */
  get errors(): Finding[] {
    return this.findings.filter((f) => f.severity === "error" && !f.silenced && f.name !== "ratio-strength");
  }

  run(point: Run["point"] = new Map(), overfill: Overfill = "label", printed?: Run): Run {
    const { lookup, policy } = this.library.surroundings();
    return runRecipe(this.recipe, lookup, policy, { point, overfill, printed });
  }
}
