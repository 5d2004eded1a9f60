/** What leaves a container through tubing is held against the container as a draw is. Figures by hand. */
import { describe, expect, it } from "vitest";
import { happened } from "../../language/bench/run.ts";
import { vesselsOf } from "../../language/bench/setup.ts";
import { run } from "../worked/recipe.ts";

const more = `device line {
  kind            tubing
  priming-volume  3 mL
}
fluid salt {
  name  "salt of the worked examples"
}
stock salt-bag {
  fluid      salt
  container  bag
  fill       100 mL
  capacity   150 mL
}
stock powder {
  drug       remedy
  container  powder-vial
  content    1 g
  reconstitute {
    with          9 mL of salt
    gives         100 mg/mL
    withdrawable  9.5 mL
  }
}`;
const bench = (steps: string) =>
  run({
    stock: "container  vial\n  strength  50 mg/mL\n  fill  1 L\n  capacity  2 L",
    more,
    materials: "bag  salt-bag\n    vial  1 x powder\n    line  line\n    tube  line",
    order: "dose  1 g per flask",
    steps,
  });
const dissolved =
  "disinfect bag, vial, flask\n    reconstitute vial with 9 mL from bag using syringe\n    swirl vial until dissolved";

describe("prime", () => {
  it("moves what it lets through, and the rest stays in the bag", () => {
    const result = bench("disinfect bag\n    prime line with 20 mL from bag");
    expect(result.steps.at(-1)!.moved!.toText()).toBe("20");
    expect(vesselsOf(result.groups.get("bag"))[0]!.liquid.volume.toText()).toBe("80");
    expect(result.happenings).toEqual([]);
  });

  it("tells a volume that the bag does not hold", () => {
    const [short] = happened(bench("disinfect bag\n    prime line with 120 mL from bag"), "draw-beyond-content");
    expect([short!.data.asked.toText(), short!.data.held.toText()]).toEqual(["120", "100"]);
  });

  it("goes into the port, which is wiped before, and not once it is sealed", () => {
    expect(happened(bench("prime line with 20 mL from bag"), "entry-not-disinfected")).toHaveLength(1);
    const sealed = bench("disinfect bag\n    seal bag\n    prime line with 20 mL from bag");
    expect(happened(sealed, "touched-after-seal")).toHaveLength(1);
  });
});

describe("transfer", () => {
  it("takes no more out of a powder vial than its label lets one take", () => {
    const [short] = happened(
      bench(`${dissolved}\n    transfer 10 mL from vial to flask using tube`),
      "draw-beyond-content",
    );
    expect([short!.data.asked.toText(), short!.data.held.toText()]).toEqual(["10", "9.5"]);
    const right = bench(`${dissolved}\n    transfer 9.5 mL from vial to flask using tube`);
    expect(happened(right, "draw-beyond-content")).toEqual([]);
    expect(vesselsOf(right.groups.get("flask"))[0]!.liquid.amounts.get("remedy")!.toText()).toBe("0.95");
  });

  it("leaves that much less for a draw after it", () => {
    const result = bench(
      `${dissolved}\n    transfer 5 mL from vial to flask using tube\n    disinfect vial\n    draw 5 mL from vial into syringe`,
    );
    const [short] = happened(result, "draw-beyond-content");
    expect(short!.data.held.toText()).toBe("4.5");
  });

  it("waits until the powder is dissolved", () => {
    const soon = dissolved.replace(/\n.*swirl.*/, "");
    const result = bench(`${soon}\n    transfer 9 mL from vial to flask using tube`);
    expect(happened(result, "drawn-before-dissolved")).toHaveLength(1);
  });
});
