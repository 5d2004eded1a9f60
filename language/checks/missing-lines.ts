/**
 * What a missing line or block leaves open: an order without a dose has conditions, roundings and steps that speak of it. Each is told
 * beneath the finding that says what is missing, with its place and its facts, and comes forward by itself should it stay once that is
 * there. Only what speaks of the missing thing itself is; what is wrong beside it stands on its own.
 */
import type { Recipe } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { ChunkFinding } from "./chunk-finding.ts";

interface Missing {
  /** The check that says what is missing. */
  told: string;
  isMissing(recipe: Recipe): boolean;
  /** What the finding itself says, where it has several kinds. */
  says?: RegExp;
  /** @param words the text at the place of the finding */
  leavesOpen(finding: ChunkFinding, words: string, around: Around): boolean;
}

interface Around {
  under: ChunkFinding;
  recipe: Recipe;
  lookup: Pick<Lookup, "find">;
}

/** The dose of a drug is not delivered because no step takes its product: neither it nor what would have served it is used. */
function servesMissingDose({ name }: ChunkFinding, words: string, { under, recipe, lookup }: Around): boolean {
  if (name !== "material-never-used") return false;
  const { order, materials } = recipe;
  const row = [...(order?.all("additive") ?? []), ...(order?.all("dose") ?? [])].find(
    (f) => f.start === under.at.start,
  );
  const drug = row && "drug" in row.slots ? row.slots.drug.name : order?.one("drug")?.slots.drug.name;
  const item = materials.find((material) => material.name.name === words)?.item.name;
  if (drug === undefined || item === undefined) return false;
  return (
    lookup.find("device", item) !== undefined || lookup.find("stock", item)?.facts.one("drug")?.slots.drug.name === drug
  );
}

/** Rules and ranges are for a dose; a condition or a step may speak of something else. */
function speaksOfDose({ name }: ChunkFinding, words: string): boolean {
  if (name === "patient-figure-not-used" || name === "dose-rule-not-applied") return true;
  return (name === "condition-not-judged" || name === "figure-not-known") && /\bdose\b/.test(words);
}

const missingLines: readonly Missing[] = [
  {
    told: "order-incomplete",
    isMissing: ({ order }) =>
      order !== undefined &&
      (["dose", "concentration", "additive", "target"] as const).every((word) => order.all(word).length === 0),
    leavesOpen: speaksOfDose,
  },
  {
    told: "order-incomplete",
    isMissing: ({ order }) =>
      order !== undefined && (["drug", "additive", "target"] as const).every((word) => order.all(word).length === 0),
    leavesOpen: speaksOfDose,
  },
  {
    told: "recipe-incomplete",
    isMissing: ({ order }) => order === undefined,
    leavesOpen: (finding, words) =>
      finding.name === "example-outside-order" ||
      finding.name === "condition-not-judged" ||
      speaksOfDose(finding, words),
  },
  {
    told: "recipe-incomplete",
    isMissing: ({ materials }) => materials.length === 0,
    leavesOpen: ({ name }) => name === "unknown-thing",
  },
  {
    told: "giving-not-said",
    isMissing: ({ order }) => order !== undefined && !order.one("infuse-over") && !order.one("infuse-at"),
    leavesOpen: ({ name, message }) => name === "limit-not-compared" && message.includes("how fast it is given"),
  },
  {
    told: "dose-not-delivered",
    says: /the steps bring none into/,
    isMissing: ({ materials }) => materials.length > 0,
    leavesOpen: servesMissingDose,
  },
];

export interface LeftOpen {
  under: ChunkFinding;
  open: readonly ChunkFinding[];
}

/** @param standing the findings of the recipe that its reader sees */
export function leftOpen(
  standing: readonly ChunkFinding[],
  recipe: Recipe,
  text: string,
  lookup: Pick<Lookup, "find">,
): readonly LeftOpen[] {
  const taken = new Set<ChunkFinding>();
  return missingLines.flatMap(({ told, says, isMissing, leavesOpen }) => {
    const isOfThis = ({ name, message }: ChunkFinding) => name === told && (says?.test(message) ?? true);
    const under = isMissing(recipe) ? standing.find(isOfThis) : undefined;
    if (!under) return [];
    const around = { under, recipe, lookup };
    // An error is never told beneath a warning.
    const mayStand = ({ severity }: ChunkFinding) => severity !== "error" || under.severity === "error";
    const open = standing.filter(
      (f) => f !== under && !taken.has(f) && mayStand(f) && leavesOpen(f, text.slice(f.at.start, f.at.end), around),
    );
    for (const f of open) taken.add(f);
    return open.length > 0 ? [{ under, open }] : [];
  });
}
