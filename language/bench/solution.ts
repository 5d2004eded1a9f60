/**
 * What a finished container holds, as a pharmacist asks of it: each ion in mmol and mEq, in all and in a litre; percent strength;
 * osmolarity; declared pH; and what the filled container weighs. Every figure is exact; what cannot be worked out says why.
 */
import type { RangeSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { usualCharge } from "../quantities/ion-charges.ts";
import { filledWeight, type Weight } from "./filled-weight.ts";
import { type Osmolarity, osmolarityOf } from "./osmolarity.ts";
import type { Run } from "./run.ts";
import { nameOfKey } from "./setup.ts";
import { ionIn } from "./targets.ts";
import type { Vessel } from "./things.ts";

export interface IonAmount {
  ion: string;
  /** In the container; undefined where it cannot be worked out. */
  mmol: Exact | undefined;
  mEq: Exact | undefined;
  mmolPerLitre: Exact | undefined;
  mEqPerLitre: Exact | undefined;
  /** Each source with its part in mmol. */
  sources: readonly { source: string; amount: Exact }[];
  /** Why a figure is missing. */
  unknown: readonly string[];
}

export interface PercentStrength {
  /** The drug or what a fluid contains. */
  name: string;
  /** g in 100 mL. */
  percent: Exact;
}

export interface Solution {
  /** mL. */
  volume: Exact;
  ions: readonly IonAmount[];
  percents: readonly PercentStrength[];
  osmolarity: Osmolarity | undefined;
  /** mOsm in the whole container: the least, and the most where that is known. */
  osmoles: { least: Exact; most: Exact | undefined } | undefined;
  ph: readonly { name: string; range: RangeSlot }[];
  weight: Weight;
}

const litre = Exact.of(1000);
const hundred = Exact.of(100);

/** Undefined where the run does not know the figures, or nothing is in it. */
export function solutionOf(run: Run, vessel: Vessel): Solution | undefined {
  const { volume } = vessel.liquid;
  if (run.unknown || !volume.isPositive()) return undefined;
  const osmolarity = osmolarityOf(vessel, run);
  return {
    volume,
    ions: ionNames(vessel, run).map((ion) => ionAmount(ion, vessel, run)),
    percents: percents(vessel, run),
    osmolarity,
    osmoles: osmolarity && {
      least: osmolarity.least.times(volume),
      most: osmolarity.most?.times(volume),
    },
    ph: declaredPh(vessel, run),
    weight: filledWeight(vessel, run),
  };
}

/** Ions of the drugs in it, and what stocks and fluids say they contain in mmol or mEq. */
function ionNames(vessel: Vessel, run: Run): string[] {
  const names = new Set<string>();
  for (const [key, held] of vessel.liquid.amounts) {
    if (held.isZero()) continue;
    const drug = run.setup.drugs.get(key);
    for (const ion of drug?.substance.ions ?? []) names.add(ion.name);
    const kind = run.setup.kinds.get(key);
    if (!drug && (kind === "moles" || kind === "equivalents")) names.add(nameOfKey(key));
  }
  return [...names];
}

function ionAmount(ion: string, vessel: Vessel, run: Run): IonAmount {
  const moles = ionIn(vessel, ion, "moles", run);
  const equivalents = ionIn(vessel, ion, "equivalents", run);
  const charge = usualCharge(ion);
  let mmol = moles.unknown.length === 0 ? moles.total : undefined;
  let mEq = equivalents.unknown.length === 0 ? equivalents.total : undefined;
  if (charge && mmol && !mEq) mEq = mmol.times(charge);
  if (charge && mEq && !mmol) mmol = mEq.over(charge);
  const perLitre = (amount: Exact | undefined) => amount?.times(litre).over(vessel.liquid.volume);
  const unknown = [...(mmol ? [] : moles.unknown), ...(mEq ? [] : equivalents.unknown)];
  return {
    ion,
    mmol,
    mEq,
    mmolPerLitre: perLitre(mmol),
    mEqPerLitre: perLitre(mEq),
    sources: moles.parts,
    unknown,
  };
}

function percents(vessel: Vessel, run: Run): PercentStrength[] {
  return [...vessel.liquid.amounts].flatMap(([name, held]) =>
    run.setup.kinds.get(name) === "mass" && held.isPositive()
      ? [{ name: name.replace(/ \(mass\)$/, ""), percent: held.times(hundred).over(vessel.liquid.volume) }]
      : [],
  );
}

function declaredPh(vessel: Vessel, run: Run): Solution["ph"] {
  const drugs = vessel.liquid.drugs.flatMap((name) => {
    const range = run.setup.drugs.get(name)?.facts.one("ph")?.slots.range;
    return range ? [{ name, range }] : [];
  });
  const fluids = [...vessel.liquid.fluids.keys()].flatMap((name) => {
    const range = run.setup.fluids.get(name)?.facts.one("ph")?.slots.range;
    return range ? [{ name, range }] : [];
  });
  return [...drugs, ...fluids];
}
