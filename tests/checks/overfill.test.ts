/**
 * What a bag holds beyond its label, where a dose rests on it. Bags held 3 % to 20 % more than their label (ISMP Canada 2013, "Overfill
 * needs to be taken into account for IV chemotherapy"). Worked by hand: 4 g in 100 mL + 8 mL are 37.04 mg/mL, so that 1 g is 27 mL; with
 * 20 mL more in the bag the same 27 mL hold 4 g × 27 / 128 = 843.75 mg.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { mixedInBagExample } from "../../language/checks/volumes/mixed-in-bag.ts";
import { findingsOf } from "./findings-of.ts";

const told = (text: string) => findingsOf(text).map((f) => `${f.name}: ${f.message}`);
const names = (text: string) => findingsOf(text).map((f) => f.name);
const drawn = "draw 1 g from bag into dose-syringe  = 27 mL";
const holding = (range: string): [string, string] => [
  "  capacity   150 mL\n",
  `  capacity   150 mL\n  overfill   ${range}  source guide "bags"\n`,
];

describe("a dose drawn from what was mixed in a bag of unstated overfill", () => {
  it.each([drawn, "draw 27 mL from bag into dose-syringe", "draw dose from bag into dose-syringe"])("%s", (draw) => {
    const [only, ...more] = told(mixedInBagExample([drawn, draw]));
    expect(more).toEqual([]);
    expect(only).toMatch(
      /^dose-rests-on-overfill: .*843\.75 mg of magnesium-sulfate in place of 1 g \(15\.6 % too little\)/,
    );
  });

  it("is known no better where the added volume is withdrawn first", () => {
    const text = mixedInBagExample(
      [
        "    tap mag\n",
        "    disinfect bag\n    attach needle-2 to dose-syringe\n    withdraw 8 mL from bag using dose-syringe and discard\n    tap mag\n",
      ],
      ["    attach needle-2 to dose-syringe\n    draw 1 g", "    draw 1 g"],
      [drawn, "draw 1 g from bag into dose-syringe  = 25 mL"],
      ["final-volume    27 mL", "final-volume    25 mL"],
      ["at   37.04 mg/mL", "at   40 mg/mL"],
      ["concentration  37.04 mg/mL", "concentration  40 mg/mL"],
    );
    // 4 g × 25 / 120.
    expect(told(text).join()).toMatch(/833\.3 mg of magnesium-sulfate in place of 1 g/);
  });

  it("is none where all of the bag is drawn, however much it holds", () => {
    const big = "\ndevice big {\n  kind        syringe\n  capacity    150 mL\n  graduation  2 mL\n}\n";
    const emptied = (draw: string) =>
      mixedInBagExample(
        ["dose            1 g per", "dose            4 g per"],
        ["recipe magnesium-1g {", "recipe magnesium-4g {"],
        ["Magnesium sulfate 1 g, syringe", "Magnesium sulfate 4 g, syringe"],
        ["dose-syringe  syringe-30mL", "dose-syringe  big"],
        [drawn, draw],
        ["final-volume    27 mL", "final-volume    108 mL"],
      ) + big;
    expect(told(emptied("draw all from bag into dose-syringe"))).toEqual([]);
    // All of it by the label leaves the overfill behind, and the drug in it.
    expect(told(emptied("draw 108 mL from bag into dose-syringe")).join()).toMatch(/3\.375 g .* in place of 4 g/);
  });

  it("is none where the bag is given whole, or where nothing but its fluid is drawn", () => {
    expect(told(example())).toEqual([]);
    const rinsed = example([
      "    mix bag by inverting 10 times\n",
      "    disinfect bag\n    draw 5 mL from bag into syringe\n    expel air from syringe\n    disinfect bag\n    inject syringe into bag\n    mix bag by inverting 10 times\n",
    ]);
    expect(names(rinsed)).not.toContain("dose-rests-on-overfill");
  });

  it("is not told of a line of overfill that cannot be read, which is told itself", () => {
    const text = mixedInBagExample(["  capacity   150 mL\n", "  capacity   150 mL\n  overfill   some\n"]);
    expect(names(text)).not.toContain("dose-rests-on-overfill");
    expect(names(text)).toContain("fact-not-understood");
  });
});

describe("a dose drawn from what was mixed in a bag of stated overfill", () => {
  it("is measured by the strength with the mean of it", () => {
    // 112 mL: 1 g is 28 mL, and 37.04 mg/mL is what nobody finds in it.
    const text = mixedInBagExample(holding("3 mL to 5 mL"));
    expect(told(text).join()).toMatch(/step 15 stands 27 mL; the step moves 28 mL/);
    expect(told(text).join()).toMatch(/magnesium-37 is declared at 37\.04 mg\/mL; bag holds 35\.71 mg\/mL/);
  });

  it("is held against the order with the least and the most, by the volume that the sheet tells to measure", () => {
    // 30 mL of 4 g in 111 mL and in 128 mL.
    const text = told(mixedInBagExample(holding("3 mL to 20 mL"), ["  = 27 mL", "  = 30 mL"])).join("\n");
    expect(text).toMatch(/dose-not-delivered: .*with the least overfill that is stated, .*1\.081 g/);
    expect(text).toMatch(/dose-not-delivered: .*with the most overfill that is stated, .*937\.5 mg/);
  });
});

describe("a ready-made bag of which a part is thrown away", () => {
  const readyMade = (overfill: string) =>
    example(
      ["    bag          saline-bag-100\n", "    bag          magnesium-bag\n"],
      ["    mag          magnesium-ampoule\n", ""],
      ["    filter       filter-needle-5um\n", ""],
      ["    syringe      syringe-10mL\n", "    syringe      syringe-30mL\n"],
      [
        "    check label and expiry of mag, bag\n    tap mag\n    disinfect mag\n    open mag\n    attach filter to syringe\n    draw 4 g from mag into syringe  = 8 mL\n    expel air from syringe\n    replace filter on syringe with needle\n    disinfect bag\n    inject syringe into bag\n    mix bag by inverting 10 times\n",
        "    check label and expiry of bag\n    attach needle to syringe\n    disinfect bag\n    withdraw 20 mL from bag using syringe and discard\n",
      ],
      ["    keep mag, filter, needle, syringe for check\n", "    keep needle, syringe for check\n"],
      [
        "    diluent         sodium-chloride-0.9\n    diluent-volume  100 mL\n    method          add-to-bag\n",
        "    method          undiluted\n",
      ],
      ["    concentration  37.04 mg/mL", "    concentration  50 mg/mL"],
    ) +
    `\nstock magnesium-bag {\n  drug       magnesium-sulfate\n  container  bag\n  strength   50 mg/mL\n  fill       100 mL\n  capacity   150 mL\n  made-of    polyolefin\n  doses      single\n  storage    room-temperature\n  premixed   yes\n${overfill}}\n`;
  it("holds what is left with its overfill: 80 mL and 20 mL of 50 mg/mL", () => {
    expect(told(readyMade("")).join("\n")).toMatch(
      /dose-rests-on-overfill: .*bag gets 5 g .* in place of 4 g \(25 % too much\)/,
    );
    const stated = told(readyMade('  overfill   5 mL to 10 mL  source guide "bags"\n')).join("\n");
    expect(stated).toMatch(/with the most overfill that is stated, the steps bring 4\.5 g into bag .*by its volume/);
    expect(stated).not.toMatch(/dose-rests-on-overfill/);
  });
});

describe("a part of a bag that is given", () => {
  const part = (method: string) =>
    names(
      example(
        ["    infuse-over     4 h\n", "    infuse-over     4 h\n    use             part-of-container\n"],
        ["    method          add-to-bag", `    method          ${method}`],
      ),
    );
  it("rests on the overfill too where only the added volume was withdrawn first", () => {
    expect(part("add-to-bag")).toContain("overfill-not-stated");
    expect(part("withdraw-first")).toContain("overfill-not-stated");
  });
});

describe("how far a dose can miss", () => {
  const worstCase: [string, string] = [
    "  tolerance      dose 5 %\n",
    "  tolerance      dose 5 %\n  tolerance      worst-case 8 %\n",
  ];
  const strength: [string, string] = [
    "  strength   500 mg/mL\n",
    '  strength   500 mg/mL\n  strength-tolerance  10 %  source guide "magnesium"\n',
  ];
  it("counts the stated tolerance of a strength for a draw by amount as for one by volume", () => {
    const [byAmount, byVolume] = [
      told(example(worstCase, strength)),
      told(example(worstCase, strength, ["draw 4 g from mag", "draw 8 mL from mag"])),
    ];
    expect(byAmount.join()).toMatch(/^dose-can-miss: .*the stated tolerance of magnesium-ampoule: 10 %/);
    expect(byAmount).toEqual(byVolume);
  });
});
