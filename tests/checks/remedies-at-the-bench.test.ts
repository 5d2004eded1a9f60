/**
 * What a message advises must help at the bench where it is read: as many loads as it takes, a needle that one step alone wears out, a
 * set that a step takes from, a time that a clock shows, and routes that a monograph bans and does not allow. Common practice.
 */
import { describe, expect, it } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const told = (name: string, text: string) => findingsOf(text).flatMap((f) => (f.name === name ? [f.message] : []));

describe("more than the syringe holds", () => {
  const draw = (volume: string) =>
    told(
      "draw-beyond-syringe",
      example(["draw 4 g from mag into syringe  = 8 mL", `draw ${volume} from mag into syringe`]),
    );

  it.each([
    ["18 mL", "two"],
    ["21 mL", "three"],
    ["95 mL", "10"],
  ])("%s into 10 mL: %s steps", (volume, steps) => {
    expect(draw(volume)[0]).toContain(`or draw in ${steps} steps and inject between them.`);
  });
});

describe("a needle after its punctures", () => {
  const limit: [string, string] = ["  expiry-ahead   30 days", "  expiry-ahead   30 days\n  needle-punctures up to 3"];
  const three: [string, string] = ["    vial         vancomycin-vial-500", "    vial         3 x vancomycin-vial-500"];

  it("cannot be replaced before a step that wears it out alone", () => {
    const each: [string, string] = ["reconstitute vial with", "reconstitute each of vial with"];
    expect(told("needle-too-many-punctures", powderExample(limit, three, each))).toEqual([
      "Step 4 alone punctures more than 3 times with thin; the site changes a needle after 3. Use a spike or a larger syringe, or split the step and replace the needle between.",
    ]);
  });

  it("is replaced before the step where others used it", () => {
    const [message] = told("needle-too-many-punctures", powderExample(limit));
    expect(message).toMatch(/^Step \d+ is puncture 4 with thin; .* Replace it before\.$/);
  });
});

describe("a filter that serves more than its label allows", () => {
  const three: [string, string][] = [
    ["  fill       10 mL", "  fill       5 mL"],
    ["    mag          magnesium-ampoule", "    mag          3 x magnesium-ampoule"],
    ["4 g per bag", "6 g per bag"],
    ["    draw 4 g from mag into syringe  = 8 mL", "    draw 6 g from mag into syringe  = 12 mL"],
    ["    syringe      syringe-10mL", "    syringe      syringe-20mL"],
  ];
  const stated: [string, string] = [
    "  strength   500 mg/mL",
    "  strength   500 mg/mL\n  one-filter-for  2  source guide",
  ];

  it("is told to state the allowance only where none is stated", () => {
    expect(told("filter-shared", example(...three))[0]).toContain("state `one-filter-for` with its source");
    expect(told("filter-shared", example(stated, ...three))).toEqual([
      "filter serves 3 containers; the label allows 2. Take a new filter, or a needle for what needs no filter.",
    ]);
  });
});

describe("a set that a step takes from", () => {
  const vials = (step: string) =>
    findingsOf(
      example(
        [
          "    bag          saline-bag-100",
          "    bag          saline-bag-100\n    more         2 x saline-bag-100\n    tube         transfer-tubing",
        ],
        [
          "    mix bag by inverting 10 times\n",
          `    disinfect bag, more\n    ${step}\n    mix bag by inverting 10 times\n`,
        ],
      ),
    );

  it("gets a line for each, since `each of` cannot be said of it, and is told once", () => {
    const found = vials("transfer 120 mL from more to bag using tube");
    expect(found.filter((f) => f.name === "not-each-of").map((f) => f.message)).toEqual([
      "more stands for 2 containers and step 12 needs one. Give each a line of its own in `materials`, such as `more-1`, and write a step for each.",
    ]);
    expect(found.map((f) => f.name)).not.toContain("draw-beyond-content");
  });
});

describe("`fill` into a set", () => {
  it("is understood with `each of`", () => {
    const found = findingsOf(
      example(["    disinfect bag\n", "    fill each of bag with 10 mL from mag using syringe\n    disinfect bag\n"]),
    );
    expect(found.map(({ name }) => name)).not.toContain("step-not-understood");
  });
});

describe("time that the steps wait", () => {
  it("is told as a clock shows it", () => {
    const [message] = told(
      "use-within-longer-than-stability",
      powderExample(
        [
          "    counted-from   mixing\n    for            24 h\n  }\n}\n\nfluid water",
          "    counted-from   reconstitution\n    for            24 h\n  }\n}\n\nfluid water",
        ],
        ["    swirl vial until dissolved\n", "    swirl vial until dissolved\n    wait 5 min\n"],
      ),
    );
    expect(message).toContain("stable for 1,435 min (24 h less 5 min of waiting in the steps)");
  });
});

describe("a route that the monograph bans", () => {
  const dose = "  dose           from 500 mg up to 10 g for any route\n";
  const order: [string, string] = [
    "    route           intravenous\n    access          peripheral\n    infuse-over     4 h\n",
    "    route           intramuscular\n",
  ];

  it("is none that it speaks of", () => {
    const [message] = told("route-not-in-monograph", example([dose, `${dose}  never          intrathecal\n`], order));
    expect(message).toContain("the monograph of magnesium-sulfate speaks of intravenous only");
  });

  it("is all that it says", () => {
    const [message] = told(
      "route-not-in-monograph",
      example(
        [dose, `${dose}  never          intrathecal\n`],
        ["  concentration  up to 200 mg/mL for route intravenous\n", ""],
        ["  rate           up to 9 g/h for route intravenous\n", ""],
        order,
      ),
    );
    expect(message).toContain("speaks of no route by which it may be given");
  });
});

describe("a drug that is not for the route at all", () => {
  it("is not told besides that its rate is not known", () => {
    const found = findingsOf(
      example([
        "    route           intravenous\n    access          peripheral\n",
        "    route           intrathecal\n",
      ]),
    ).map((f) => f.name);
    expect(found).toContain("guarded-route-not-in-monograph");
    expect(found).not.toContain("rate-not-watched");
  });

  it("is told so where the site keeps the first quiet", () => {
    const found = findingsOf(
      example(
        ["    route           intravenous\n    access          peripheral\n", "    route           intrathecal\n"],
        [
          "  role           pharmacist\n",
          `  role           pharmacist\n  severity       guarded-route-not-in-monograph note\n    because "told on paper"\n`,
        ],
      ),
    ).map((f) => f.name);
    expect(found).toContain("rate-not-watched");
  });
});

describe("a fluid for dialysis", () => {
  const fluid = (route: string) =>
    told(
      "route-forbidden",
      example(
        ["  use         injection", "  use         dialysis"],
        [
          "    route           intravenous\n    access          peripheral\n    infuse-over     4 h\n",
          `    route           ${route}\n`,
        ],
      ),
    );

  it("goes into the belly, and not into a vein or a muscle", () => {
    expect(fluid("intraperitoneal")).toEqual([]);
    expect(fluid("intravenous")[0]).toBe(
      "sodium-chloride-0.9 is for dialysis and the route is intravenous. Use a fluid for injection.",
    );
    expect(fluid("subcutaneous")).toHaveLength(1);
  });
});
