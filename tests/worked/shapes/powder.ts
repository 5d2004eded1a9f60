/** Powders: what the vial holds once dissolved, what its label implies, and how much diluent reaches a strength. */
import { minus, over, type Quantity, times } from "../../../language/quantities/quantity.ts";
import { concentrationIn, type Parts, run, volumeIn } from "../recipe.ts";
import { given, inUnit, known, type Row, text } from "../rows.ts";
import { drawn } from "./drawing.ts";
import type { Shape } from "./shape.ts";

/** A powder vial with its own facts about displacement or label, and the diluent that goes in. */
export function dissolved(content: string, facts: string, diluent: string, more: Partial<Parts> = {}) {
  const { steps = "", ...rest } = more;
  return run({
    stock: `container  powder-vial\n  content  ${content}\n  capacity  1 L\n  ${facts}`,
    steps: `reconstitute source with ${diluent} from tank using spare\n    swirl source until dissolved\n    ${steps}`,
    ...rest,
  });
}

export function written(q: Quantity): string {
  return `${q.value.toText()} ${q.unit.spelling}`;
}

const displaced = (row: Row, name: string) => `displacement  ${text(row, name)}`;
const ignored = "displacement  0 mL";

function label(row: Row, volume: string, gives: string, amount = "diluent_added"): string {
  return `reconstitute {
    with  ${text(row, amount)} of vehicle
    gives  ${gives}
    withdrawable  ${volume}
  }`;
}

/** The vial after the label's own diluent: `gives` decides its volume. */
function byLabel(row: Row, content: string, concentration: string): Quantity {
  return volumeIn(
    dissolved(text(row, content), label(row, "1000 mL", text(row, concentration)), text(row, "diluent_added")),
    "source",
  );
}

/** Diluent that reaches the target, found as a person does, then put into the vial: it must hold the target. */
function diluentFor(row: Row): Quantity {
  const volume = over(given(row, "powder_mass"), given(row, "target_concentration"));
  const diluent = known(minus(volume, given(row, "displacement")));
  const vial = dissolved(text(row, "powder_mass"), displaced(row, "displacement"), written(inUnit(diluent, "mL")));
  const reached = inUnit(concentrationIn(vial, "source"), row.given.target_concentration!.unit);
  if (!reached.value.equals(given(row, "target_concentration").value)) throw new Error(`${row.id}: target not reached`);
  return diluent;
}

export const powder: readonly Shape[] = [
  {
    name: "concentration after reconstitution, powder volume given",
    rows: ["03-001", "03-004", "03-005", "03-007", "03-009"],
    find: (row) =>
      concentrationIn(
        dissolved(text(row, "powder_mass"), displaced(row, "powder_volume"), text(row, "diluent_added")),
        "source",
      ),
  },
  {
    name: "volume that holds the whole vial",
    rows: ["03-002"],
    find: (row) =>
      volumeIn(
        dissolved(text(row, "powder_mass"), displaced(row, "powder_volume"), text(row, "diluent_added")),
        "source",
      ),
  },
  {
    name: "nominal concentration, powder volume left out by the source",
    rows: ["03-016", "03-017", "03-022", "03-023", "03-025", "03-026"],
    find: (row) =>
      concentrationIn(dissolved(text(row, "powder_mass"), ignored, text(row, "liquid_added_total")), "source"),
  },
  {
    // The row's note: 1.6 mL go in first, then the whole content is made up; 0.4 mL is the powder volume of 03-009, same vial.
    name: "concentration after making up the whole vial",
    rows: ["03-018"],
    find: (row) =>
      concentrationIn(
        dissolved(text(row, "powder_mass"), "displacement  0.4 mL", "1.6 mL", {
          steps: `draw 2 mL from source into syringe\n    inject syringe into flask\n    make up flask to ${text(row, "final_volume")} with tank using spare`,
        }),
        "flask",
      ),
  },
  {
    name: "concentration after a further dilution",
    rows: ["03-011", "03-012", "03-015"],
    find: (row) =>
      concentrationIn(
        drawn(text(row, "concentration_before"), text(row, "volume_drawn"), {
          steps: `draw ${text(row, "volume_drawn")} from source into syringe\n    inject syringe into flask\n    add ${text(row, "diluent_added")} from tank to flask using spare`,
        }),
        "flask",
      ),
  },
  {
    name: "label table: printed concentration and what can be drawn out",
    rows: ["09-005", "09-006", "09-010", "09-012", "09-013", "09-014"],
    find: (row) => {
      const printed = over(given(row, "powder_amount"), given(row, "approx_available_volume"));
      const facts = label(row, text(row, "approx_available_volume"), written(printed));
      const vial = dissolved(text(row, "powder_amount"), facts, text(row, "diluent_added"));
      const whole = inUnit(volumeIn(vial, "source"), "mL").value;
      if (!whole.equals(given(row, "approx_available_volume").value)) throw new Error(`${row.id}: another volume`);
      return concentrationIn(vial, "source");
    },
  },
  {
    // 1.2 mL go in and 1 mL comes out: the powder would take up less than nothing. The bench says so and goes by what went in
    // (tested in labels.test.ts), so that here only the label's own quotient is at hand.
    name: "label table: more diluent than can be drawn out",
    rows: ["09-009"],
    find: (row) => over(given(row, "powder_amount"), given(row, "approx_available_volume")),
  },
  {
    name: "label table: volume that the printed concentration implies",
    rows: ["09-017", "09-019", "09-020", "09-024", "09-025", "09-026", "09-027", "09-029", "09-030"],
    find: (row) => byLabel(row, "powder_amount", "printed_concentration"),
  },
  {
    name: "diluent for a target concentration",
    rows: ["10-003", "10-004", "10-005", "10-006", "10-008"],
    find: diluentFor,
  },
  {
    // 600 mg benzylpenicillin, as both rows say in what they ask.
    name: "volume after reconstitution",
    rows: ["10-009", "10-010"],
    find: (row) => volumeIn(dissolved("600 mg", displaced(row, "displacement"), text(row, "diluent_added")), "source"),
  },
  {
    name: "displacement that a guide's concentration implies",
    rows: ["10-012", "10-013", "10-014", "10-015", "10-018", "10-022", "10-023", "10-025"],
    find: (row) => minus(byLabel(row, "powder_mass", "concentration"), given(row, "diluent_added")),
  },
  {
    name: "displacement from a printed final volume",
    rows: ["10-017"],
    find: (row) => minus(given(row, "final_volume"), given(row, "diluent_added")),
  },
  {
    // 2.5 mL to 1 g make 3 mL, so the powder takes 0.5 mL (row 10-017).
    name: "concentration of a printed final volume",
    rows: ["10-016"],
    find: (row) => concentrationIn(dissolved(text(row, "powder_mass"), "displacement  0.5 mL", "2.5 mL"), "source"),
  },
  {
    name: "mass of the same dose by its units",
    rows: ["02-024"],
    find: (row) => {
      const perUnit = over(given(row, "mg_per_vial"), given(row, "units_per_vial"));
      return times(given(row, "penicillin_units_per_kg"), perUnit);
    },
  },
];
