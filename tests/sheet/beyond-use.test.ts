/**
 * When a preparation ends. Rules: a limit in hours is elapsed time, a limit in days the local calendar (reference
 * practice/expiry.json, row dst-and-offset, common practice); a preparation is never dated beyond the end of the expiry day of a
 * component (row expiry-vs-bud: Wisconsin Administrative Code, Phar 15.37).
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import type { SheetRequest } from "../../language/sheet/sheet.ts";
import { sheetFrom } from "./sample-sheets.ts";

function ends(limit: string, more: Partial<SheetRequest> = {}, ...changes: [string, string][]) {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("library.misce", example(["24 h at room-temperature", `${limit} at room-temperature`], ...changes));
  return sheetFrom(library, "magnesium-4g", more).beyondUse.map((row) => [row.end?.text, row.binds.text]);
}

describe("a stated limit", () => {
  it.each([
    ["24 h", "2026-11-26 09:30"],
    ["90 min", "2026-11-25 11:00"],
    ["20 min", "2026-11-25 09:50"],
    ["10 days", "2026-12-05 09:30"],
    ["2 weeks", "2026-12-09 09:30"],
  ])("of %s ends at %s", (limit, end) => {
    expect(ends(limit)[0]![0]).toBe(end);
  });

  it("of 24 h is elapsed time and of 1 day the calendar, over the night in which clocks go back", () => {
    // London, 2026-10-25: 02:00 becomes 01:00, so the day has 25 hours.
    const night = { at: "2026-10-24T12:00", timeZone: "Europe/London" };
    expect(ends("24 h", night)[0]![0]).toBe("2026-10-25 11:00");
    expect(ends("1 day", night)[0]![0]).toBe("2026-10-25 12:00");
  });

  it("in months is the same day of a later month, or its last day", () => {
    expect(ends("1 month")[0]![0]).toBe("2026-12-25 09:30");
    expect(ends("3 months", { at: "2026-11-30T09:30" })[0]![0]).toBe("2027-02-28 09:30");
  });

  it("that cannot be counted leaves a line to write on, and says so", () => {
    const [[end, why]] = ends("1.5 months") as [[string | undefined, string]];
    expect(end).toBeUndefined();
    expect(why).toMatch(/a part of a month has no place on the calendar/);
  });

  it("says whether giving must begin or be finished by then", () => {
    expect(ends("12 h")[0]![1]).toBe("stated limit; giving must begin by then");
    const counts: [string, string] = [
      "  role           aseptic-lead\n",
      "  role           aseptic-lead\n  use-within-counts  end\n",
    ];
    expect(ends("24 h", {}, counts)[0]![1]).toBe("stated limit; giving must be finished by then");
  });

  it.each([
    // Stable for 24 h and given over 4 h: begun at 20 h it is finished in time.
    ["20 h", undefined],
    ["21 h", "2026-11-26 09:30"],
    ["24 h", "2026-11-26 09:30"],
  ])("of %s: giving that would outlast the stability must be finished by %s", (limit, by) => {
    const [[, binds]] = ends(limit) as [[string, string]];
    const words = `and be finished by ${by}, when magnesium sulfate heptahydrate is no longer known to be stable`;
    expect(binds).toBe(`stated limit; giving must begin by then${by === undefined ? "" : ` ${words}`}`);
  });

  it("of what is given at once, or at no rate that is ordered, says nothing of its end", () => {
    for (const use of ["bolus", "titrated"])
      expect(ends("24 h", {}, ["    infuse-over     4 h", `    use             ${use}`])[0]![1]).toBe(
        "stated limit; giving must begin by then",
      );
  });
});

describe("a lot that goes in", () => {
  const expires: [string, string] = ['lot "KQ-2291"  expires 2027-04', 'lot "KQ-2291"  expires 2026-11-25'];
  const lots = new Map([["mag", ["KQ-2291"]]]);

  it("that expires sooner sets the limit: the end of its last day", () => {
    expect(ends("24 h", { lots }, expires)).toEqual([
      ["2026-11-26 00:00", "lot KQ-2291 of mag ends sooner (2026-11-25); giving must begin by then"],
    ]);
  });

  it("that lasts longer changes nothing", () => {
    expect(ends("12 h", { lots })).toEqual([["2026-11-25 21:30", "stated limit; giving must begin by then"]]);
  });
});
