/** The trade's words for containers, one or several. */
import type { Group } from "../bench/setup.ts";

export const containerNames: Readonly<Record<string, readonly [one: string, several: string]>> = {
  ampoule: ["ampoule", "ampoules"],
  vial: ["vial", "vials"],
  "powder-vial": ["powder vial", "powder vials"],
  bag: ["bag", "bags"],
  bottle: ["bottle", "bottles"],
  "evacuated-bottle": ["evacuated bottle", "evacuated bottles"],
  "prefilled-syringe": ["prefilled syringe", "prefilled syringes"],
  "empty-bag": ["empty bag", "empty bags"],
  "empty-bottle": ["empty bottle", "empty bottles"],
  "empty-vial": ["empty vial", "empty vials"],
  infusor: ["infusor", "infusors"],
  cassette: ["cassette", "cassettes"],
};

/** `ampoule`, `powder vials`; a device is a piece. */
export function pieces(group: Group | undefined, count: number): string {
  const kind = group?.item?.kind === "stock" ? group.item.facts.one("container")?.slots.kind.choice : undefined;
  const words = (kind && containerNames[kind]) || (["piece", "pieces"] as const);
  return count === 1 ? words[0] : words[1];
}

/** `2 ampoules`. */
export function counted(group: Group | undefined, count: number): string {
  return `${count} ${pieces(group, count)}`;
}

/** The same for what is finished: what was empty, evacuated or held a powder is so no longer. */
export function finishedPieces(group: Group | undefined, count: number): string {
  return pieces(group, count).replace(/^(empty|evacuated|powder) /, "");
}
