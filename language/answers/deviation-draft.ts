/**
 * A deviation begun for a finding. Reason and end date stay open on purpose: a deviation without them silences nothing, and a finding
 * asks for them, so that nobody silences anything by a click.
 */
import type { Finding } from "../../shared/finding.ts";
import { isBeyondDeviations } from "../checks/deviations.ts";
import type { Library } from "../library.ts";
import { occurrencesIn } from "./occurrences.ts";
import { placeAt } from "./place.ts";

export interface Draft {
  title: string;
  /** Offset in the file. */
  at: number;
  text: string;
}

export function deviationDraft(library: Library, finding: Finding): Draft | undefined {
  const place = placeAt(library, finding.span.file, finding.span.start);
  const recipe = place?.declaration;
  if (!place || recipe?.kind !== "recipe" || finding.silenced) return undefined;
  const { policy } = library.surroundings();
  if (policy.neverSilenced.has(finding.name) || isBeyondDeviations(finding.name)) return undefined;
  const block = place.chunk.reading.blocks.find(
    (b) => b.head.start <= recipe.head.start && recipe.head.end <= b.head.end,
  );
  if (!block?.close) return undefined;
  const thing = occurrencesIn(recipe).find(
    (o) =>
      o.recipe &&
      finding.span.start <= place.chunk.base + o.at.start &&
      place.chunk.base + o.at.end <= finding.span.end,
  );
  const on = thing ? ` on ${thing.name}` : "";
  const by = policy.roles.length === 1 ? `\n    by ${policy.roles[0]}` : "";
  return {
    title: `Begin a deviation for ${finding.name}${on} (reason, role and end date are yours to write)`,
    at: place.chunk.base + block.close.start,
    text: `\n  deviation ${finding.name}${on}\n    because ""${by}\n`,
  };
}
