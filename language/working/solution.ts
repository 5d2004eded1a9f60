/** The working of what a finished container holds beyond its drugs: ions, percent strength, osmolarity. Figures: bench/solution.ts. */
import type { Run } from "../bench/run.ts";
import { type IonAmount, type Solution, solutionOf } from "../bench/solution.ts";
import type { Vessel } from "../bench/things.ts";
import type { Exact } from "../quantities/exact.ts";
import { usualCharge } from "../quantities/ion-charges.ts";
import { type Quantity, showQuantity } from "../quantities/quantity.ts";
import { findUnit, type Unit } from "../quantities/unit.ts";
import { amountQuantity } from "./amount-words.ts";
import { alike, whichContainer } from "./contents.ts";
import { line, millilitres, shown, shownVolume, type Working, type WorkingLine } from "./working.ts";

const unit = (spelling: string): Unit => findUnit(spelling).unit!;
const [mmol, mEq, perLitre, mEqPerLitre, percent, mOsmPerLitre, mOsm] = [
  unit("mmol"),
  unit("mEq"),
  unit("mmol/L"),
  unit("mEq/L"),
  unit("% w/v"),
  unit("mOsm/L"),
  unit("mOsm"),
];

export function solutionWorkings(run: Run): Working[] {
  return alike(run).flatMap(({ name, vessel, count }) => {
    const solution = solutionOf(run, vessel);
    if (!solution) return [];
    const each = count > 1 ? `each of ${name}` : name;
    return [
      ...solution.ions.map((ion) => ionWorking(run, vessel, each, ion)),
      ...percentWorkings(run, vessel, each, solution),
      ...osmolarityWorking(run, vessel, each, solution),
    ];
  });
}

function of(value: Exact | undefined, unit: Unit): Quantity | undefined {
  return value && { value, unit };
}

function ionWorking(run: Run, vessel: Vessel, each: string, ion: IonAmount): Working {
  const [moles, equivalents] = [of(ion.mmol, mmol), of(ion.mEq, mEq)];
  const figures = [moles, equivalents].filter((q) => q !== undefined);
  return {
    kind: "ion",
    of: [ion.ion, ...whichContainer(run, vessel)],
    key: `ion ${ion.ion} ${vessel.name} ${vessel.index}`,
    label: `${ion.ion} in ${each}`,
    step: undefined,
    value: moles ?? equivalents,
    text: figures.length > 0 ? figures.map((q) => showQuantity(q)).join(", ") : "not known",
    lines: [
      ...sourceLines(run, vessel, ion, moles),
      ...perLitreLines(vessel, ion, moles, equivalents),
      ...notKnown(ion.unknown),
    ],
  };
}

/** Each source by itself, then the sum; from the mass of a drug by its molar mass. */
function sourceLines(
  run: Run,
  vessel: Vessel,
  { ion, sources }: IonAmount,
  total: Quantity | undefined,
): WorkingLine[] {
  const lines = sources.map(({ source, amount }) => {
    const part = { value: amount, unit: mmol };
    const drug = run.setup.drugs.get(source);
    const held = vessel.liquid.amounts.get(source);
    const kind = run.setup.kinds.get(source);
    const molar = drug?.substance.molarMass;
    const set = drug?.substance.ions.find((i) => i.name === ion)?.perFormula ?? 1;
    if (!molar || !held || kind !== "mass") return line("stated", `${source}: ${shown(part)}`, part);
    const times = set === 1 ? "" : ` × ${set} ${ion}`;
    const mass = shown(amountQuantity(held, kind));
    return line("converted", `${source}: ${mass} ÷ ${molar.toText()} g/mol${times} = ${shown(part)}`, part);
  });
  if (sources.length < 2 || !total) return lines;
  const sum = sources.map(({ amount }) => shown({ value: amount, unit: mmol })).join(" + ");
  return [...lines, line("computed", `${sum} = ${shown(total)}`, total)];
}

function perLitreLines(
  vessel: Vessel,
  ion: IonAmount,
  moles: Quantity | undefined,
  equivalents: Quantity | undefined,
): WorkingLine[] {
  const volume = shownVolume(vessel.liquid.volume);
  const rows = [
    [moles, of(ion.mmolPerLitre, perLitre)],
    [equivalents, of(ion.mEqPerLitre, mEqPerLitre)],
  ] as const;
  const charge = moles && equivalents ? [chargeLine(ion, moles, equivalents)] : [];
  return [
    ...charge,
    ...rows.flatMap(([amount, each]) =>
      amount && each ? [line("computed", `${shown(amount)} in ${volume}, in a litre: ${shown(each)}`, each)] : [],
    ),
  ];
}

function chargeLine({ ion }: IonAmount, moles: Quantity, equivalents: Quantity): WorkingLine {
  const charge = usualCharge(ion);
  const how = charge ? ` × charge ${charge.toText()}` : "";
  return line("converted", `${shown(moles)} ${ion}${how} = ${shown(equivalents)}`, equivalents);
}

function notKnown(reasons: readonly string[]): WorkingLine[] {
  return [...new Set(reasons)].map((reason) => line("remark", `not worked out: ${reason}`));
}

function percentWorkings(run: Run, vessel: Vessel, each: string, { percents, volume }: Solution): Working[] {
  return percents.map(({ name, percent: value }): Working => {
    const strength = { value, unit: percent };
    const held = vessel.liquid.amounts.get(name) ?? vessel.liquid.amounts.get(`${name} (mass)`);
    const mass = held ? { value: held, unit: unit("g") } : undefined;
    const text = mass
      ? `${shown(mass)} in ${shownVolume(volume)}, in 100 mL: ${shown({ value, unit: unit("g") })}, that is ${shown(strength)}`
      : shown(strength);
    return {
      kind: "percent-strength",
      of: [name, ...whichContainer(run, vessel)],
      key: `percent ${name} ${vessel.name} ${vessel.index}`,
      label: `Percent strength of ${name} in ${each}`,
      step: undefined,
      value: strength,
      text: showQuantity(strength),
      lines: [line("computed", text, strength)],
    };
  });
}

function osmolarityWorking(
  run: Run,
  vessel: Vessel,
  each: string,
  { osmolarity, osmoles, volume }: Solution,
): Working[] {
  if (!osmolarity || !osmoles) return [];
  const at = (value: Exact): Quantity => ({ value: value.over(mOsmPerLitre.factor), unit: mOsmPerLitre });
  const inAll = (value: Exact): Quantity => ({ value: value.over(mOsm.factor), unit: mOsm });
  const { least, most, uncounted } = osmolarity;
  const quotient = (sum: Exact, per: Exact) =>
    line("computed", `${shown(inAll(sum))} ÷ ${shownVolume(volume)} = ${shown(at(per))}`, at(per));
  const isOne = most?.equals(least) ?? false;
  // Where nothing could be counted, a sum of nought would look like a figure.
  const counted = least.isPositive() || isOne ? [quotient(osmoles.least, least)] : [];
  const lines = [
    line("remark", "ideal: each ion set free counts as one particle; stated osmolarities of fluids as they stand"),
    ...counted,
  ];
  if (osmoles.most && most && !isOne) lines.push(line("remark", "at the most:"), quotient(osmoles.most, most));
  return [
    {
      kind: "osmolarity",
      of: whichContainer(run, vessel),
      key: `osmolarity ${vessel.name} ${vessel.index}`,
      label: `Osmolarity of ${each}`,
      step: undefined,
      value: isOne ? at(least) : undefined,
      text: rangeText(at(least), most && at(most), isOne),
      lines: [...lines, ...uncounted.map((u) => line("remark", `${u.name} not counted: ${u.lacks}`))],
    },
  ];
}

function rangeText(least: Quantity, most: Quantity | undefined, isOne: boolean): string {
  if (isOne) return showQuantity(least);
  if (least.value.isPositive())
    return most ? `${showQuantity(least)} to ${showQuantity(most)}` : `at least ${showQuantity(least)}`;
  return most ? `at most ${showQuantity(most)}` : "not known";
}

/** What a finished container weighs when filled, where every density is declared. */
export function weightWorkings(run: Run): Working[] {
  const g = unit("g");
  return alike(run).flatMap(({ name, vessel, count }): Working[] => {
    const weight = solutionOf(run, vessel)?.weight;
    if (!weight?.content) return [];
    const content = { value: weight.content, unit: g };
    const parts = weight.parts.map(({ name: part, volume, density, mass }) => {
      const grams = { value: mass, unit: g };
      const product =
        volume && density ? `${shown(millilitres(volume))} × ${shown({ value: density, unit: unit("g/mL") })} = ` : "";
      return line("computed", `${part}: ${product}${shown(grams)}`, grams);
    });
    const filled = of(weight.filled, g);
    const lines = [...parts, line("computed", `content: ${shown(content)}`, content)];
    if (filled) lines.push(line("computed", `with the container: ${shown(filled)}`, filled));
    return [
      {
        kind: "filled-weight",
        of: whichContainer(run, vessel),
        key: `weight ${vessel.name} ${vessel.index}`,
        label: `Weight of ${count > 1 ? `each of ${name}` : name}`,
        step: undefined,
        value: filled ?? content,
        text: filled ? showQuantity(filled) : `content ${showQuantity(content)}`,
        lines: [...lines, ...weight.lacks.map((lack) => line("remark", `not worked out: ${lack}`))],
      },
    ];
  });
}
