/**
 * In-use limits of what is opened on the way. They speak of what is left in the opened product; the finished container is under
 * them only where it is that product, nothing added but its own diluent. A product that is kept between preparations may have
 * been opened before, and the time that is left on it is not known here: that is said with it.
 * Source: in-use rows of tests/reference/practice/beyond-use-dates.json.
 */
import { policyEdition } from "../model/beyond-use-policies.ts";
import { type InUseRow, isSeen, policySource } from "../model/beyond-use-policy.ts";
import type { Stock } from "../model/declaration.ts";
import type { Policy } from "../model/policy.ts";
import { hours } from "../quantities/hours.ts";
import { showQuantity } from "../quantities/quantity.ts";
import type { Run } from "./run.ts";
import type { Vessel } from "./things.ts";
import { sourceText, type UseLimit } from "./use-limit.ts";

export function inUseLimits(run: Run, vessel: Vessel, policy: Policy): UseLimit[] {
  const stocks = new Map<string, Stock>();
  for (const { item } of run.groups.values()) {
    if (item?.kind === "stock" && vessel.liquid.stocks.includes(item.name.name)) stocks.set(item.name.name, item);
  }
  return [...stocks.values()].flatMap((stock) => limitOnceOpened(stock, vessel, policy) ?? []);
}

/** What the product itself says, or the site's table where it says nothing; undefined where neither does. */
export function limitOnceOpened(stock: Stock, vessel: Vessel, policy: Policy): UseLimit | undefined {
  const own = ownLimit(stock, vessel);
  if (own) return own;
  const edition = policy.beyondUse && policyEdition(policy.beyondUse.edition);
  const kind = containerOf(stock);
  const row = edition?.inUse.find((each) => each.container === kind);
  return row && byEdition(row, edition!.name, stock, vessel);
}

function containerOf({ facts }: Stock): InUseRow["container"] | undefined {
  if (facts.one("container")?.slots.kind.choice === "ampoule") return "ampoule";
  const doses = facts.one("doses")?.slots.doses.choice;
  // The tables' time for multiple-dose containers is that of preserved ones.
  const isUnpreserved = facts.one("preservative")?.slots.what.name === "none";
  return doses === "multiple" && isUnpreserved ? "single" : doses;
}

function ownLimit(stock: Stock, vessel: Vessel): UseLimit | undefined {
  const fact = stock.facts.one("in-use");
  const { quantity, written } = fact?.slots.time ?? {};
  const length = hours(quantity, 28);
  if (!fact || !quantity || written === undefined || !length) return undefined;
  return {
    kind: "in-use",
    name: stock.name.name,
    time: quantity,
    written,
    hours: length,
    footing: "declared",
    source: sourceText(fact.source) ?? "no source stated",
    counted: counted(stock),
    onlyIf: fact.slots.place && `it is kept at ${fact.slots.place.name}`,
    limits: isTheProduct(vessel, stock),
    place: { start: fact.start, end: fact.end, chunk: stock.chunk },
  };
}

function byEdition(row: InUseRow, edition: string, stock: Stock, vessel: Vessel): UseLimit {
  return {
    kind: "in-use",
    name: stock.name.name,
    time: row.limit,
    written: row.limit.value.isZero() ? "not kept once opened" : showQuantity(row.limit),
    hours: hours(row.limit, 28)!,
    footing: isSeen(row) ? "read" : "recalled",
    source: `${edition}: ${policySource(row)}`,
    counted: counted(stock),
    onlyIf: row.onlyIf,
    // An ampoule is never the finished container, and a table's figure for opened stock is no limit of a mixture.
    limits: row.container !== "ampoule" && isTheProduct(vessel, stock),
    place: undefined,
  };
}

function counted(stock: Stock): string {
  const kept = ["multiple", "bulk"].includes(stock.facts.one("doses")?.slots.doses.choice ?? "");
  return kept
    ? "from first opening; where it was opened before, only what is left of that time counts"
    : "from first opening";
}

/** The finished container is the opened product itself: its own pack, with nothing of another product but what it is dissolved in. */
function isTheProduct(vessel: Vessel, stock: Stock): boolean {
  const [drug, second] = vessel.liquid.drugs;
  return vessel.stock === stock && second === undefined && stock.facts.one("drug")?.slots.drug.name === drug;
}
