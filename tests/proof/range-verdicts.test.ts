/**
 * Hard cases of a ranged order, each worked out by hand beside it. The figures of the drug are those of the standard example, which
 * are invented; the arithmetic is the point.
 */
import { describe, expect, it } from "vitest";
import { standardLibrary } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";

/** The standard example with its order replaced and no figures stated beside the steps. */
function ordered(order: string, ...changes: [string, string][]): string {
  let text = standardLibrary
    .replace(/ {4}dose {12}4 g per bag\n/, order)
    .replace("draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe")
    .replace("    concentration  37.04 mg/mL\n", "")
    .replace("magnesium-4g {", "magnesium-by-weight {")
    .replace("Magnesium sulfate 4 g in", "Magnesium sulfate by weight in")
    .replace("  strength   500 mg/mL", "  strength   500 mg/mL\n  one-filter-for  40  source guide");
  for (const [from, to] of changes) {
    if (text.split(from).length !== 2) throw new Error(`not just once: ${from}`);
    text = text.replace(from, to);
  }
  return text;
}

function messages(text: string, name: string): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("range.misce", text);
  return library
    .findings("range.misce")
    .filter((f) => f.name === name)
    .map((f) => f.message);
}

function names(text: string): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("range.misce", text);
  return library.findings("range.misce").map((f) => f.name);
}

describe("a ranged order", () => {
  it("tells from which weight a limit is passed", () => {
    // 50 mg/kg of 500 mg/mL is 0.1 mL/kg. c = 50w / (100 + 0.1w) mg/mL reaches 30 where 50w = 3000 + 3w, w = 63.829…;
    // in steps of 1 kg 63 kg still holds (29.63) and 64 kg does not (30.08).
    const text = ordered(
      "    weight          40 kg to 80 kg in steps of 2 kg\n    dose            50 mg/kg per bag\n",
      ["up to 200 mg/mL", "up to 30 mg/mL"],
    );
    expect(messages(text, "concentration-above-limit")).toEqual([
      expect.stringContaining("so for weight 64 kg to 80 kg, and not for weight 40 kg to 62 kg"),
    ]);
  });

  it("shows the roundest failing weight, as the ordinary bench runs it", () => {
    const text = ordered(
      "    weight          40 kg to 80 kg in steps of 2 kg\n    dose            50 mg/kg per bag\n",
      ["up to 200 mg/mL", "up to 30 mg/mL"],
    );
    // 64 kg to 80 kg fail alike. 80 kg: 4 g in 108 mL is 37.04 mg/mL.
    expect(messages(text, "concentration-above-limit")[0]).toContain("is 37.04 mg/mL in bag");
    expect(messages(text, "concentration-above-limit")[0]).toContain("Shown for weight 80 kg");
  });

  it("sees a cap that bites inside the range", () => {
    // Uncapped, 120 kg would be 6 g and 12 mL on a 10 mL syringe; capped at 5 g it is 10 mL.
    const capped = ordered(
      "    weight          40 kg to 120 kg in steps of 2 kg\n    dose            50 mg/kg per bag\n    maximum         dose 5 g\n",
    );
    expect(names(capped)).not.toContain("draw-beyond-syringe");
    const free = ordered(
      "    weight          40 kg to 120 kg in steps of 2 kg\n    dose            50 mg/kg per bag\n",
    );
    expect(messages(free, "draw-beyond-syringe")).toEqual([
      expect.stringContaining("so for weight 102 kg to 120 kg, and not for weight 40 kg to 100 kg"),
    ]);
  });

  it("finds a rounding that fails at one weight only", () => {
    // To the nearest 1 g: 25 mg/kg × 100 kg = 2.5 g goes up to 3 g, over a window of 2.9 g that 2 g (up to 99 kg) keeps.
    const text = ordered(
      "    weight          60 kg to 100 kg in steps of 1 kg\n    dose            25 mg/kg per bag\n    round           dose to nearest 1 g\n",
      ["from 500 mg up to 10 g", "from 500 mg up to 2.9 g"],
    );
    expect(messages(text, "dose-outside-window")).toEqual([
      expect.stringContaining("Shown for weight 100 kg; so for weight 100 kg, and not for weight 60 kg to 99 kg"),
    ]);
  });

  it("finds the hole in the middle", () => {
    // 20 mg/kg: 0.8 g at 40 kg to 2 g at 100 kg; no row of diluent holds from above 1.2 g (60 kg) to below 1.5 g (75 kg).
    const text = ordered(
      "    weight          40 kg to 100 kg in steps of 1 kg\n    dose            20 mg/kg per bag\n",
      [
        "    diluent-volume  100 mL\n",
        "    diluent-volume  100 mL  when dose up to 1.2 g\n    diluent-volume  100 mL  when dose from 1.5 g\n",
      ],
    );
    expect(messages(text, "order-row-does-not-hold")).toEqual([
      expect.stringContaining("so for weight 61 kg to 74 kg, and not for weight 40 kg to 60 kg and 75 kg to 100 kg"),
    ]);
  });

  it("places a turning point of an order without steps to one part in a million", () => {
    // 50w / (100 + 0.1w) = 30 at w = 3000/47; withdraw-first keeps 100 mL: 50w / 100 = 30 at w = 60.
    const text = ordered(
      "    weight          40 kg to 80 kg\n    dose            50 mg/kg per bag\n",
      ["up to 200 mg/mL", "up to 30 mg/mL"],
      ["syringe-10mL", "syringe-unmarked"],
    );
    const unmarked = `${text}\ndevice syringe-unmarked {\n  kind        syringe\n  capacity    10 mL\n}\n`;
    const [message] = messages(unmarked, "concentration-above-limit");
    // 3000/47 is 63.8297872…: the end told as safe lies below it, the other does not reach further than it.
    expect(message).toContain("so for weight above 63.829787 kg up to 80 kg, and not for weight 40 kg to 63.829787 kg");
  });

  it("judges a weight that depends on the age over the union of both", () => {
    const text = ordered(
      "    age             1 years to 12 years in steps of 1 years\n    weight          8 kg to 20 kg in steps of 1 kg  when age below 6 years\n    weight          15 kg to 50 kg in steps of 1 kg  when age from 6 years\n    dose            50 mg/kg per bag\n",
      ["from 500 mg up to 10 g", "from 500 mg up to 10 g"],
    );
    // 8 kg × 50 mg/kg = 400 mg is below the window of 500 mg; 9 kg is 450 mg; 10 kg keeps it. Only children below 6 years.
    const [message] = messages(text, "dose-outside-window");
    expect(message).toMatch(/Shown for weight [89] kg and age \d years|Shown for age \d years and weight [89] kg/);
    expect(message).toContain("so for weight 8 kg to 9 kg and age 1 year to 5 years, and not for any other order");
  });
});
