/** Words and arguments that the client itself puts together. */
import { describe, expect, it } from "vitest";
import { checkArguments } from "../../client/vscode/src/check-arguments.ts";
import { dayFault } from "../../client/vscode/src/day.ts";
import { statusText } from "../../client/vscode/src/status-text.ts";

describe("status bar", () => {
  const status = { asOf: "2026-11-25", fixed: false, files: 79, counts: { error: 1, warning: 0, note: 2 } };

  it("counts, and names the day", () => {
    expect(statusText(status).text).toBe("$(error) 1 $(warning) 0 $(info) 2 · as of 2026-11-25");
    expect(statusText(status).spoken).toBe("Misce: 1 error, 0 warnings, 2 notes in 79 files, judged as of 2026-11-25.");
  });

  it("says that a day was fixed", () => {
    expect(statusText({ ...status, fixed: true }).text).toContain("as of 2026-11-25 (fixed)");
  });

  it("never looks like an all clear before the first count or after the checker has stopped", () => {
    expect(statusText(undefined).text).toBe("$(sync~spin) Misce: checking");
    expect(statusText("stopped").text).toBe("$(error) Misce: not checking");
    expect(statusText("stopped").grave).toBe(true);
  });

  it("never looks like an all clear beside a text that is not checked, as the older side of a comparison", () => {
    const shown = statusText({ notChecked: "git" });
    expect(shown.text).toBe("$(circle-slash) Misce: this text is not checked");
    expect(shown.spoken).toMatch(/does not check this text: it comes from "git"/);
  });
});

describe("as-of date", () => {
  it.each(["", "2026-11-25", " 2024-02-29 "])("takes %j", (day) => expect(dayFault(day)).toBeUndefined());

  it.each([
    ["25.11.2026", "Write the day as YYYY-MM-DD, for example 2026-11-25."],
    ["2026-02-29", "There is no day 2026-02-29 in the calendar."],
    ["2026-13-01", "There is no day 2026-13-01 in the calendar."],
    ["2026-04-31", "There is no day 2026-04-31 in the calendar."],
  ])("asks again for %s", (day, told) => expect(dayFault(day)).toBe(told));
});

describe("arguments of the check task", () => {
  it("the task's own day goes before the setting", () => {
    expect(checkArguments({ type: "misce", paths: ["a"], asOf: "2026-12-31" }, "2026-01-01")).toEqual([
      "check",
      "--as-of",
      "2026-12-31",
      "--",
      "a",
    ]);
  });

  it("a path that begins with dashes stays a path", () => {
    expect(checkArguments({ type: "misce", paths: ["--write-baseline"], level: "error" }, "")).toEqual([
      "check",
      "--level",
      "error",
      "--",
      "--write-baseline",
    ]);
  });
});
