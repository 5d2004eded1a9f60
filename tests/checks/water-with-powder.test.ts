/**
 * Water that dissolved a powder comes in with the drug; water taken as the diluent does not, however much was in the vial. By hand: a vial
 * of 500 mg in 10 mL brings 1 mL with 50 mg, so that 10 mL made of 1 mL from the vial hold 9 mL more.
 */
import { expect, it } from "vitest";
import { powderExample } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const dilutedWith = (fluid: "wfi" | "sack") =>
  findingsOf(
    powderExample(
      ["    dose            500 mg per sack\n", "    dose            50 mg per measure\n"],
      [
        "    diluent-volume  100 mL\n    method          add-to-bag\n    route           intravenous\n    access          peripheral\n    infuse-over     60 min\n  }\n\n  materials {\n    vial ",
        "    final-volume    10 mL\n    method          build-from-empty\n    route           intravenous\n    access          peripheral\n    use             bolus\n  }\n\n  materials {\n    vial ",
      ],
      [
        "    measure      syringe-10mL\n",
        "    load         syringe-10mL\n    measure      syringe-10mL\n    other        needle-21-gauge\n",
      ],
      ["    attach thin to measure\n", "    attach other to load\n    attach thin to measure\n"],
      ["using measure at", "using load at"],
      [
        "draw 500 mg from vial into measure at equal pressure  = 10 mL",
        "draw 50 mg from vial into measure at equal pressure  = 1 mL",
      ],
      [
        "    disinfect sack\n    inject measure into sack\n    mix sack by inverting 10 times\n    inspect sack\n    seal sack\n    label sack\n",
        `    disinfect ${fluid}\n    make up measure to 10 mL with ${fluid}\n    expel air from measure\n    mix measure by inverting 10 times\n    inspect measure\n    seal measure\n    label measure\n`,
      ],
      ["  preparation sack {", "  preparation measure {"],
      ["concentration  4.55 mg/mL", "concentration  5 mg/mL"],
    ),
  );

it("is told where it takes the place of the ordered diluent", () => {
  const stranger = dilutedWith("wfi").find((f) => f.name === "fluid-not-ordered");
  expect(stranger?.message).toMatch(
    /^10 mL of water-for-injection ends in measure; the order names sodium-chloride-0.9/,
  );
});

it("is not told where it only dissolved the powder", () => {
  expect(dilutedWith("sack").map((f) => f.name)).not.toContain("fluid-not-ordered");
});

it("is told of saline too, whose ions are in every drop of it", () => {
  // All the saline of the bag, and of the vial: 100 mL and 10 mL, of which 10 mL came with the powder.
  const found = findingsOf(
    powderExample(
      ["    with          10 mL of water-for-injection\n", "    with          10 mL of sodium-chloride-0.9\n"],
      ["  fluid      water-for-injection\n  container  vial", "  fluid      sodium-chloride-0.9\n  container  vial"],
      [
        "    dose            500 mg per sack\n    diluent         sodium-chloride-0.9\n",
        "    dose            500 mg per sack\n",
      ],
    ),
  );
  expect(found.map((f) => f.name)).toContain("fluid-not-ordered");
});
