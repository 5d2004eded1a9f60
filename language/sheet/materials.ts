/** The materials in the order in which the steps take them up, with the lots chosen or lines to record them on. */
import type { Run } from "../bench/run.ts";
import type { Group } from "../bench/setup.ts";
import { dateText, isDateFault, isExpired } from "../model/dates.ts";
import type { Lookup, LotOnShelf } from "../model/lookup.ts";
import { compareMoments, endOfExpiry, type Moment } from "../model/moments.ts";
import { pieces } from "../working/pieces.ts";
import { productCautions, productOf } from "./product.ts";
import { fixed, type Said } from "./said.ts";
import type { MaterialRow, SheetRefusal } from "./sheet.ts";

/** Material name → lots chosen for it. */
export type ChosenLots = ReadonlyMap<string, readonly LotOnShelf[]>;

/** Lots are asked for by the name in the steps or by the stock's name; each must be on the shelf and in date at `now`. */
export function chooseLots(
  run: Run,
  lookup: Lookup,
  asked: ReadonlyMap<string, readonly string[]>,
  now: Moment,
): ChosenLots | SheetRefusal {
  const chosen = new Map<string, LotOnShelf[]>();
  for (const [name, lots] of asked) {
    const groups = [...run.groups.values()].filter((g) => g.name === name || g.material.item.name === name);
    if (groups.length === 0) {
      const known = [...run.groups.values()].filter((g) => g.item?.kind === "stock").map((g) => g.name);
      return {
        refusal: `--lot names "${name}", which is no material of ${run.recipe.name.name}. It has ${known.join(", ")}.`,
      };
    }
    for (const group of groups) {
      const stock = group.material.item.name;
      for (const lot of lots) {
        const found = lotInDate(stock, lot, lookup, now);
        if ("refusal" in found) return found;
        const list = chosen.get(group.name) ?? [];
        chosen.set(group.name, [...list, found]);
      }
    }
  }
  return chosen;
}

function lotInDate(stock: string, lot: string, lookup: Lookup, now: Moment): LotOnShelf | SheetRefusal {
  const shelf = lookup.lots(stock);
  const found = shelf.filter((l) => l.lot === lot);
  if (found.length === 0) {
    const there =
      shelf.length > 0 ? `On the shelf: ${shelf.map((l) => l.lot).join(", ")}.` : "The shelf holds no lot of it.";
    return {
      refusal: `Lot ${lot} of ${stock} is not on the shelf. ${there} Read the pack again, or record the lot in the library.`,
    };
  }
  const [only] = found;
  if (found.length > 1)
    return { refusal: `Lot ${lot} of ${stock} stands on the shelf ${found.length} times. Put that right first.` };
  if (!only?.expires)
    return { refusal: `The expiry of lot ${lot} of ${stock} cannot be read. Put it right in the library first.` };
  if (isExpired(only.expires, now.date, now)) {
    return {
      refusal: `Lot ${lot} of ${stock} went out of date on ${dateText(only.expires.lastDay)}; the preparation is dated ${dateText(now.date)}. Take another lot and put this one into quarantine.`,
    };
  }
  return only;
}

/** Lots of a stock that may still be used, first to expire first. */
function usableLots(stock: string, lookup: Lookup, now: Moment): LotOnShelf[] {
  const zone = now.zone;
  const end = (l: LotOnShelf) => (l.expires ? endOfExpiry(l.expires, zone) : undefined);
  return lookup
    .lots(stock)
    .filter((l) => l.expires && !isExpired(l.expires, now.date, now))
    .sort((a, b) => {
      const [x, y] = [end(a), end(b)];
      return x && y && !isDateFault(x) && !isDateFault(y) ? compareMoments(x, y) : 0;
    });
}

export function materialRows(run: Run, runs: number, lookup: Lookup, chosen: ChosenLots, now: Moment): MaterialRow[] {
  return alikeTogether(inOrderOfUse(run), lookup).map((groups) => {
    const [group] = groups as [Group, ...Group[]];
    const count = groups.reduce((sum, g) => sum + g.things.length, 0) * runs;
    const stock = group.item?.kind === "stock" ? group.material.item.name : undefined;
    const lots = chosen.get(group.name) ?? [];
    return {
      name: groups.map((g) => g.name).join(", "),
      product: productOf(group, lookup),
      count: countSaid(group, count, groups),
      recordsLot: stock !== undefined,
      chosen: lots.map((l) => ({
        lot: lotSaid(l, l.lot),
        expires: lotSaid(l, l.expires?.text ?? ""),
      })),
      onShelf:
        stock === undefined || lots.length > 0
          ? []
          : usableLots(stock, lookup, now)
              .slice(0, 3)
              .map((l) => lotSaid(l, `${l.lot} (${l.expires?.text})`)),
      // A second line where more than one container may come from more than one lot.
      lines: stock === undefined ? 0 : Math.max(lots.length, count > 1 ? 2 : 1),
      cautions: [...missing(group), ...productCautions(group, lookup)],
    };
  });
}

/** Single devices of one kind are fetched together: thirteen needles are one line, where the first of them is needed. */
function alikeTogether(all: readonly Group[], lookup: Lookup): Group[][] {
  const rows = new Map<string, Group[]>();
  for (const group of all) {
    const isSingle = group.item?.kind === "device" && group.things.length === 1;
    const key = isSingle ? `device ${productOf(group, lookup).text}` : `name ${group.name}`;
    rows.set(key, [...(rows.get(key) ?? []), group]);
  }
  return [...rows.values()];
}

function lotSaid(lot: LotOnShelf, text: string): Said {
  return { text, from: { kind: "shelf", stock: lot.stock, lot: lot.lot } };
}

function missing(group: Group): Said[] {
  return group.item ? [] : [fixed("The library does not say what this is.", "materials")];
}

/** @param of everything that is counted, where that is more than the one */
export function countSaid(group: Group, count: number, of: readonly Group[] = [group]): Said {
  const names = of.map((g) => g.name).join(" ");
  return { text: `${count} ${pieces(group, count)}`, from: { kind: "count", what: `containers ${names}` } };
}

/** Reading labels touches everything at once and is no use; otherwise the first step that takes a thing up decides. */
function inOrderOfUse(run: Run): Group[] {
  const first = new Map<string, number>();
  for (const step of run.steps) {
    if (step.skipped || step.verb === "check") continue;
    for (const thing of step.touched) if (!first.has(thing.name)) first.set(thing.name, step.number);
  }
  const place = (g: Group) => first.get(g.name) ?? Number.MAX_SAFE_INTEGER;
  return [...run.groups.values()].sort((a, b) => place(a) - place(b));
}
