import { happened, type Run } from "../../bench/run.ts";
import { type Part, thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip } from "../consequences.ts";
import { example } from "../example.ts";
import { isNotKnown } from "../unread-facts.ts";
import { mayHaveDone, partsMoved } from "../unread-steps.ts";

/** How many it may serve stands in a line of a label that is told as unread. */
function isAllowanceUnread({ filtered }: Part, { groups }: Run): boolean {
  return [...groups.values()].some(
    ({ item, things }) =>
      item?.kind === "stock" &&
      isNotKnown(item.facts, "one-filter-for") &&
      things.some((thing) => thing.is === "vessel" && filtered.includes(`${thing.name} ${thing.index}`)),
  );
}

export const filterShared = recipeCheck({
  name: "filter-shared",
  family: "technique",
  severity: "note",
  title: "One filter for several containers",
  why: "A filter is for one container unless the label lets it serve more.",
  source:
    "Amphotericin B lipid complex product information, admixture directions (as republished, undated): one needle for up to four vials, as the exception",
  rows: ["technique-rules amp-filter-single-use-exception"],
  bad: example(
    ["    mag          magnesium-ampoule", "    mag          2 x magnesium-ampoule"],
    ["4 g per bag", "6 g per bag"],
    ["    draw 4 g from mag into syringe  = 8 mL", "    draw 6 g from mag into syringe  = 12 mL"],
    ["    syringe      syringe-10mL", "    syringe      syringe-20mL"],
    ["concentration  37.04 mg/mL", "concentration  53.57 mg/mL"],
    ["magnesium-4g {", "magnesium-6g {"],
    ["Magnesium sulfate 4 g", "Magnesium sulfate 6 g"],
    ["  expiry-ahead   30 days", "  expiry-ahead   30 days\n  additive-share up to 50 %"],
  ),
  good: example(
    ["  strength   500 mg/mL", "  strength   500 mg/mL\n  one-filter-for  2  source guide"],
    ["    mag          magnesium-ampoule", "    mag          2 x magnesium-ampoule"],
    ["4 g per bag", "6 g per bag"],
    ["    draw 4 g from mag into syringe  = 8 mL", "    draw 6 g from mag into syringe  = 12 mL"],
    ["    syringe      syringe-10mL", "    syringe      syringe-20mL"],
    ["concentration  37.04 mg/mL", "concentration  53.57 mg/mL"],
    ["magnesium-4g {", "magnesium-6g {"],
    ["Magnesium sulfate 4 g", "Magnesium sulfate 6 g"],
    ["  expiry-ahead   30 days", "  expiry-ahead   30 days\n  additive-share up to 50 %"],
  ),
  happening: "filter-shared",
  find: ({ run }) =>
    happened(run, "filter-shared")
      .filter((h) => !mayHaveDone(partsMoved, run, h.step) && !isAllowanceUnread(h.data.filter, run))
      .filter((h) => !followsSlip(h.step, run))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say({ filter, allowed }) {
    const served = filter.filtered.length;
    return {
      text: `${thingName(filter)} serves ${served} containers; ${allowed === 1 ? "one filter is for one container" : `the label allows ${allowed}`}. Take a new filter, or a needle for what needs no filter${allowed === 1 ? ", or state `one-filter-for` with its source in the stock" : ""}.`,
    };
  },
});
