/** The preview's page: what is drawn, in which order it is read, and that nothing in a recipe can become markup or script. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { drawPreview } from "../../client/vscode/page/draw.ts";
import { pageHtml } from "../../client/vscode/src/page-html.ts";
import type { Preview } from "../../shared/preview.ts";
import { drawn, paper } from "./paper-page.ts";

const hostile = '<img src=x onerror="alert(1)"></script>';
const range = { start: { line: 4, character: 4 }, end: { line: 4, character: 20 } };

const preview: Preview = {
  uri: "file:///a.misce",
  version: 3,
  recipe: "magnesium-4g",
  title: hostile,
  asOf: "2026-11-25",
  counts: { error: 1, warning: 0, note: 0 },
  verdict: "1 error stands against this recipe: not for use as it is.",
  state: "followed",
  sections: [
    {
      kind: "steps",
      heading: "Steps",
      empty: "",
      items: [
        {
          label: "",
          text: "Draw 4 g (8 mL) from mag into syringe.",
          figure: "8 mL",
          working: ["4 g ÷ 500 mg/mL = 8 mL"],
          more: ["bag now holds 108 mL"],
          notes: [{ severity: "error", name: "filter-used-both-ways", text: "filter was drawn through." }],
          range,
        },
        { label: "", text: "Seal bag.", figure: "", working: [], more: [], notes: [] },
      ],
    },
    { kind: "materials", heading: "Materials", empty: "The recipe names no materials yet.", items: [] },
  ],
};

describe("drawn", () => {
  const all = drawn(drawPreview(paper, preview, true));
  const named = (name: string) => all.filter((e) => e.name === name);

  it("has one heading of the first rank, then one for each part", () => {
    expect(named("h1").map((h) => h.textContent)).toEqual([hostile]);
    expect(named("h2").map((h) => h.textContent)).toEqual(["Steps", "Materials"]);
    expect(named("section").map((s) => s.getAttribute("aria-labelledby"))).toEqual(named("h2").map((h) => h.id));
  });

  it("keeps a recipe's own words as text", () => {
    expect(named("img")).toEqual([]);
    expect(named("script")).toEqual([]);
  });

  it("makes a button of what has a place in the text, and of nothing else", () => {
    const [button, ...others] = named("button");
    expect(others).toEqual([]);
    expect(button!.textContent.trim()).toBe("Draw 4 g (8 mL) from mag into syringe. 8 mL");
    expect(JSON.parse(button!.getAttribute("data-range")!)).toEqual(range);
    expect(button!.getAttribute("data-line")).toBe("4");
  });

  it("says the grade of a finding in words, never by colour alone", () => {
    const told = all.filter((e) => e.className.startsWith("told"));
    expect(told.map((t) => t.textContent)).toEqual(["Error filter was drawn through."]);
  });

  it("says the verdict, and in words that a part is empty", () => {
    expect(all.filter((e) => e.className.startsWith("verdict")).map((e) => e.textContent)).toEqual([preview.verdict]);
    // A place that is drawn anew is not heard when it changes: the shell has one that stays.
    expect(all.filter((e) => e.getAttribute("role") === "status")).toEqual([]);
    expect(all.filter((e) => e.className === "empty").map((e) => e.textContent)).toEqual([
      "The recipe names no materials yet.",
    ]);
  });

  it("steps are an ordered list", () => {
    expect(named("ol")).toHaveLength(1);
    expect(named("ol")[0]!.parts).toHaveLength(2);
  });

  it("leaves the working out when it is not wanted", () => {
    expect(all.some((e) => e.className === "working")).toBe(true);
    expect(drawn(drawPreview(paper, preview, false)).some((e) => e.className === "working")).toBe(false);
  });
});

describe("the verdict's colour", () => {
  const colour = (change: Partial<Preview>) =>
    drawn(drawPreview(paper, { ...preview, ...change }, true)).find((e) => e.className.startsWith("verdict"))!
      .className;

  it.each([
    [{ counts: { error: 0, warning: 0, note: 0 } }, "verdict clear"],
    [{ counts: { error: 0, warning: 1, note: 0 } }, "verdict warning"],
    [{ counts: { error: 0, warning: 0, note: 2 } }, "verdict note"],
    [{ counts: { error: 2, warning: 1, note: 0 } }, "verdict error"],
    // A run that stopped is no all clear.
    [{ counts: { error: 0, warning: 0, note: 0 }, state: "stopped" }, "verdict warning"],
    [{ counts: { error: 0, warning: 0, note: 0 }, state: "none" }, "verdict none"],
  ] as const)("%j is %s", (change, wanted) => {
    expect(colour(change as Partial<Preview>)).toBe(wanted);
  });
});

describe("the shell", () => {
  const uri = { path: "/ext/dist", with: ({ path }: { path: string }) => ({ path, toString: () => path }) };
  const webview = { cspSource: "https://own.example", asWebviewUri: (u: never) => u as { toString(): string } };
  const html = () => pageHtml(webview, uri);

  it("has one place that stays, in which the verdict is announced", () => {
    expect(html().match(/role="[^"]*"/g)).toEqual(['role="status"']);
    expect(html()).toMatch(/<p id="announced"[^>]*><\/p>/);
  });

  it("allows nothing but its own style sheet and the script that carries the nonce", () => {
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(html())![1]!;
    const rules = Object.fromEntries(policy.split("; ").map((rule) => rule.split(/ (.*)/s).slice(0, 2)));
    const nonce = /<script nonce="([0-9a-f]{32})"/.exec(html());
    expect(nonce).not.toBeNull();
    expect(Object.keys(rules).sort()).toEqual(["base-uri", "default-src", "form-action", "script-src", "style-src"]);
    expect(rules["default-src"]).toBe("'none'");
    expect(rules["style-src"]).toBe("https://own.example");
    expect(rules["script-src"]).toMatch(/^'nonce-[0-9a-f]{32}'$/);
  });

  it("uses a nonce once", () => {
    const nonce = (page: string) => /nonce-([0-9a-f]{32})/.exec(page)![1];
    expect(nonce(html())).not.toBe(nonce(html()));
  });

  it("has no script or style of its own between its tags", () => {
    expect(html()).not.toMatch(/<script[^>]*>[^<]+<\/script>|<style|style="|\son[a-z]+="/);
    expect(html()).toContain('<html lang="en">');
  });
});

it("the style sheet takes every colour from the editor's theme", () => {
  const css = readFileSync(join(import.meta.dirname, "../../client/vscode/page/page.css"), "utf8");
  expect(css.replace(/\/\*.*?\*\//gs, "")).not.toMatch(/#[0-9a-f]{3,8}\b|rgb|hsl/i);
});
