/**
 * Limits that were not laid against an order though all figures are there, and what is left out beside a graver finding. Worked by hand
 * on the example: 8 mL of 500 mg/mL in 100 mL are 108 mL of 37.04 mg/mL. Over 4 h they run at 27 mL/h, which is 0.54 mL/kg/h at 50 kg;
 * at 27 mL/h they run 4 h, at 54 mL/h 2 h.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import type { Finding } from "../../shared/finding.ts";
import { findingsOf } from "./findings-of.ts";

const rate = "  rate           up to 9 g/h for route intravenous\n";
const over = "    infuse-over     4 h\n";
const limit = "  concentration  up to 200 mg/mL for route intravenous\n";

const told = (text: string, ...names: string[]): string[] =>
  findingsOf(text)
    .filter((f) => names.includes(f.name) && !f.silenced)
    .map(shown);
const shown = ({ name, message }: Finding) => `${name}: ${message}`;

describe("a rate of the liquid", () => {
  const liquid = (row: string, giving = over) =>
    told(
      example([rate, `${rate}  rate           ${row} for route intravenous\n`], [over, giving]),
      "rate-above-limit",
      "rate-below-limit",
      "limit-not-compared",
    );
  const weighed = `    weight          50 kg\n${over}`;

  it("in mL/h and in mL/kg/h is laid against the order", () => {
    expect(liquid("up to 20 mL/h")).toEqual([
      "rate-above-limit: magnesium-sulfate runs from bag at 27 mL/h; allowed is up to 20 mL/h. Give it over 5.4 h or longer.",
    ]);
    expect(liquid("below 0.54 mL/kg/h", weighed)).toEqual([
      "rate-above-limit: magnesium-sulfate runs from bag at 0.54 mL/kg/h; allowed is below 0.54 mL/kg/h. Give it over a longer time.",
    ]);
    expect(liquid("from 0.5 mL/min")).toHaveLength(1);
    expect(liquid("up to 26 mL/h", "    infuse-at       27 mL/h\n")).toHaveLength(1);
    expect(liquid("up to 26 mL/h", "    infuse-at       1 g/h\n")).toHaveLength(1);
  });
  it("is silent where it is kept, and still told where the weight is missing", () => {
    expect(liquid("up to 27 mL/h")).toEqual([]);
    expect(liquid("up to 0.54 mL/kg/h", weighed)).toEqual([]);
    expect(liquid("from 0.4 mL/min")).toEqual([]);
    expect(liquid("up to 27 mL/h", "    infuse-at       27 mL/h\n")).toEqual([]);
    expect(liquid("up to 27 mL/h", "    infuse-at       1 g/h\n")).toEqual([]);
    expect(liquid("up to 0.6 mL/kg/h")[0]).toMatch(/^limit-not-compared: The rate of magnesium-sulfate/);
  });
});

describe("a material that does not suit when it is given for long", () => {
  const dose = "  dose           from 500 mg up to 10 g for any route\n";
  const bag = (hours: string, giving: string) =>
    told(
      example([dose, `${dose}  container-material  polyolefin unsuitable for giving over ${hours}\n`], [over, giving]),
      "container-material-unsuitable",
    );

  it("is judged by the rate where the order states one in place of the time", () => {
    expect(bag("2 h", "    infuse-at       27 mL/h\n")).toEqual([
      "container-material-unsuitable: bag is made of polyolefin, which does not suit magnesium-sulfate when given over more than 2 h; at 27 mL/h it runs in 4 h. Use a container that does.",
    ]);
    expect(bag("2 h", "    infuse-at       54 mL/h\n")).toEqual([]);
    expect(bag("4 h", "    infuse-at       1 g/h\n")).toEqual([]);
  });
  it("is told as before where nobody knows for how long", () => {
    const titrated = "    use             titrated\n    infuse-at       54 mL/h\n";
    expect(bag("2 h", titrated)[0]).toMatch(/the order does not say over what time/);
    expect(bag("2 h", "    use             bolus\n")[0]).toMatch(/the order does not say over what time/);
  });
});

const deviation = (name: string) =>
  `  deviation ${name}\n    because "form KQ-118"\n    by aseptic-lead\n    until 2027-03-31\n\n  preparation bag {`;

describe("an unusual strength", () => {
  const unusual = (limits: string, ...more: [string, string][]) =>
    told(
      example([limit, `${limits}  usual-concentration  up to 30 mg/mL for route intravenous\n`], ...more),
      "concentration-unusual",
      "concentration-above-limit",
    ).map((text) => text.split(":")[0]);
  const strict = "  concentration  up to 35 mg/mL for route intravenous\n";

  it("is not told beside a limit that is told", () => {
    expect(unusual(strict)).toEqual(["concentration-above-limit"]);
  });
  it("is told where that is silenced or graded otherwise: it is all that is left", () => {
    expect(unusual(strict, ["  preparation bag {", deviation("concentration-above-limit")])).toEqual([
      "concentration-unusual",
    ]);
    const graded: [string, string] = [
      "  role           pharmacist\n",
      '  role           pharmacist\n  severity       concentration-above-limit off  because "form KQ-140"\n',
    ];
    expect(unusual(strict, graded)).toEqual(["concentration-unusual"]);
  });
  it("is told beside a limit that could not be compared", () => {
    expect(unusual("  concentration  up to 100 units/mL for route intravenous\n")).toEqual(["concentration-unusual"]);
  });
});

describe("a deviation from what a graver finding leaves out", () => {
  const unused = (dose: string, name: string, more = limit) =>
    told(
      example(
        ["  dose           from 500 mg up to 10 g for any route\n", `  dose           ${dose} for any route\n`],
        [limit, more],
        ["  preparation bag {", deviation(name)],
      ),
      "deviation-unused",
    );
  const strict = "  concentration  up to 35 mg/mL for route intravenous\n";

  it("is not called unused: it is needed again once that is mended", () => {
    expect(unused("up to 1 g", "concentration-above-limit", strict)).toEqual([]);
    const twice = `${strict}  usual-concentration  up to 30 mg/mL for route intravenous\n`;
    expect(unused("up to 10 g", "concentration-unusual", twice)).toEqual([]);
  });
  it("is called unused where nothing leaves it out", () => {
    expect(unused("up to 10 g", "concentration-above-limit")).toHaveLength(1);
    expect(unused("up to 10 g", "concentration-unusual")).toHaveLength(1);
    expect(unused("up to 1 g", "use-within-longer-than-stability")).toHaveLength(1);
  });
});

describe("a limit of use in months", () => {
  const kept = (row: string) =>
    told(
      example(
        [over, "    infuse-over     30 h\n"],
        ["    use-within     24 h at room-temperature\n", `    use-within     24 h at room-temperature\n${row}`],
      ),
      "given-longer-than-kept",
    );

  it("is the longest where it stands beside hours", () => {
    expect(kept("    use-within     1 months at refrigerator\n")).toEqual([]);
    expect(kept("    use-within     12 h at refrigerator\n")).toHaveLength(1);
  });
});
