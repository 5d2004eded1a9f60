/** A bag into which a drug is added as it comes, and a part of the mixture drawn as the dose. The figures are invented. */
import { standardLibrary } from "../example.ts";

const changes: readonly [string, string][] = [
  ["dose            4 g per bag", "dose            1 g per dose-syringe"],
  ["recipe magnesium-4g {", "recipe magnesium-1g {"],
  ["Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL", "Magnesium sulfate 1 g, syringe from a diluted bag"],
  ["    diluent-volume  100 mL\n    method          add-to-bag\n", "    final-volume    27 mL\n"],
  ["    infuse-over     4 h\n", "    infuse-over     30 min\n    method          build-from-empty\n"],
  [
    "    needle       needle-18-gauge\n",
    "    needle       needle-18-gauge\n    needle-2     needle-18-gauge\n    dose-syringe  syringe-30mL\n    cap          syringe-cap\n",
  ],
  [
    "    inspect bag\n    seal bag\n    label bag\n",
    `    label bag
    disinfect bag
    attach needle-2 to dose-syringe
    draw 1 g from bag into dose-syringe  = 27 mL
    expel air from dose-syringe
    discard bag
    replace needle-2 on dose-syringe with cap
    inspect dose-syringe
    seal dose-syringe
    label dose-syringe
`,
  ],
  ["keep mag, filter, needle, syringe for check", "keep mag, filter, needle, needle-2, syringe for check"],
  [
    "  preparation bag {",
    "  intermediate magnesium-37 {\n    in   bag\n    at   37.04 mg/mL\n    use  at-once\n  }\n\n  preparation dose-syringe {",
  ],
];

const cap = "\ndevice syringe-cap {\n  kind  cap\n}\n";

/** The standard library with the dose drawn from the bag. Without overfill of the bag it is silent but for `dose-rests-on-overfill`. */
export function mixedInBagExample(...more: [string, string][]): string {
  let text = standardLibrary;
  for (const [from, to] of [...changes, ...more]) {
    if (text.split(from).length !== 2) throw new Error(`an example must change just one place: ${from}`);
    text = text.replace(from, () => to);
  }
  return text + cap;
}
