/** What the side preview says about a recipe: the order as written, figures from the bench, findings beside their rows. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { previewOf, type RecipePreview } from "../../language/answers/preview.ts";
import { Library } from "../../language/library.ts";
import { Document } from "../../server/document.ts";
import { preview } from "../../server/preview.ts";
import type { Serving } from "../../server/serving.ts";

const folder = join(import.meta.dirname, "../../samples/library");
const library = new Library({ asOf: "2026-11-25" });
for (const name of readdirSync(folder, { recursive: true }) as string[]) {
  if (name.endsWith(".misce")) library.open(name, readFileSync(join(folder, name), "utf8"));
}

function rowsOf(shown: RecipePreview, kind: RecipePreview["parts"][number]["kind"]) {
  return shown.parts.find((p) => p.kind === kind)!.rows;
}

/** The preview while a sample reads otherwise for a moment. */
function changed(file: string, from: string, to: string): RecipePreview {
  const before = library.text(file)!;
  if (!before.includes(from)) throw new Error(`the sample does not say ${from}`);
  library.change(file, before.replace(from, to));
  const shown = previewOf(library, file, 0);
  library.change(file, before);
  return shown;
}

describe("a sound recipe", () => {
  const file = "recipes/magnesium-4g.misce";
  const shown = previewOf(library, file, 0);

  it("says the order in the author's own words", () => {
    expect(rowsOf(shown, "order").map((r) => [r.label, r.text])).toContainEqual(["dose", "4 g per bag"]);
  });

  it("shows each figure with its working", () => {
    const figures = rowsOf(shown, "figures");
    const figure = (label: string) => figures.find((r) => r.label === label);
    // 4 g of 500 mg/mL is 8 mL; 100 mL and 8 mL are 108 mL; 4 g in 108 mL is 37.04 mg/mL: worked on paper.
    expect(figure("Step 4, draw")).toMatchObject({ figure: "8 mL" });
    expect(figure("Step 4, draw")!.working.join()).toContain("500 mg/mL");
    expect(figure("Volume in bag")).toMatchObject({ figure: "108 mL" });
    expect(figure("Volume in bag")!.working[0]).toBe("100 mL + 8 mL = 108 mL");
    expect(figure("Concentration of magnesium sulfate heptahydrate in bag")).toMatchObject({ figure: "37.04 mg/mL" });
  });

  it("tells steps as sentences with what they move and what the bag then holds", () => {
    const steps = rowsOf(shown, "steps");
    const step = steps.find((r) => r.text.startsWith("Inject"))!;
    expect(step.figure).toBe("8 mL");
    expect(step.more).toEqual(["bag now holds 108 mL, magnesium-sulfate 37.04 mg/mL"]);
  });

  it("lists materials with lots in date, first to expire first", () => {
    const mag = rowsOf(shown, "materials").find((r) => r.label === "mag")!;
    const days = mag.more.map((line) => /expires (\S+)/.exec(line)?.[1] ?? "");
    expect(days.length).toBeGreaterThan(0);
    expect([...days].sort()).toEqual(days);
  });

  it("each row stands at its own words", () => {
    const text = library.text(file)!;
    for (const row of [...rowsOf(shown, "order"), ...rowsOf(shown, "steps"), ...rowsOf(shown, "materials")]) {
      const own = text.slice(shown.chunk!.base + row.spot!.start, shown.chunk!.base + row.spot!.end);
      expect(own.split("\n")).toHaveLength(1);
      if (row.label !== "") expect(own.replaceAll("-", " ").startsWith(row.label.replaceAll("-", " "))).toBe(true);
    }
  });
});

describe("a recipe with a fault", () => {
  it("tells the finding beside its row and stands against use", () => {
    const shown = changed("recipes/oxytocin-10-units.misce", "    replace filter on syringe with needle\n", "");
    const told = rowsOf(shown, "steps").flatMap((r) => r.notes.map((n) => `${r.text} ${n.name}`));
    expect(told.some((t) => t.startsWith("Inject") && t.endsWith("filter-used-both-ways"))).toBe(true);
    expect(shown.counts.error).toBeGreaterThan(0);
    expect(shown.verdict).toContain("not for use as it is");
  });

  it("tells every finding of the recipe exactly once", () => {
    const shown = changed("recipes/magnesium-4g.misce", "infuse-over     4 h", "infuse-over     4 min");
    const { error, warning, note } = shown.counts;
    const notes = shown.parts.flatMap((p) => p.rows.flatMap((r) => r.notes));
    expect(notes).toHaveLength(error + warning + note);
    expect(notes.length).toBeGreaterThan(0);
  });

  it.each([
    ["a step that cannot be read", "expel air from syringe", "expell the airs"],
    ["a draw of nothing known", "draw 4 g from mag", "draw 4 g from mags"],
    ["a line being typed", "inject syringe into bag", "inject syr"],
  ])("shows no figure after %s, and says so", (_, from, to) => {
    const shown = changed("recipes/magnesium-4g.misce", from, to);
    expect(shown.state).toBe("stopped");
    expect(rowsOf(shown, "figures")).toEqual([]);
    expect(
      rowsOf(shown, "steps")
        .flatMap((r) => [r.figure, ...r.more])
        .join(""),
    ).toBe("");
    expect(shown.verdict).toContain("not everything could be judged");
  });
});

describe("an order with a range", () => {
  const shown = previewOf(library, "recipes/vancomycin-loading.misce", 0);

  it("shows both ends", () => {
    // 25 mg/kg at 40 kg is 1,000 mg; at 120 kg it is 3,000 mg, capped at 2 g.
    const dose = rowsOf(shown, "figures").find((r) => r.label.startsWith("Dose of vancomycin"))!;
    expect(dose.figure).toBe("1,000 mg to 2,000 mg");
    expect(dose.working).toContain("at weight 40 kg:");
    expect(dose.working).toContain("at weight 120 kg:");
  });

  it("never puts one end's volume into a sentence for both", () => {
    const step = rowsOf(shown, "steps").find((r) => r.text.startsWith("Draw dose"))!;
    expect(step.text).not.toContain("mL");
    expect(step.figure).toBe("20 mL to 40 mL");
  });
});

describe("which recipe", () => {
  it("the one around the cursor, else the nearest above, else the first", () => {
    const two = new Library({ asOf: "2026-11-25" });
    const text = 'stock a {\n}\n\nrecipe one {\n  title "One"\n}\n\nrecipe two {\n  title "Two"\n}\n\nstock b {\n}\n';
    two.open("x.misce", text);
    const at = (words: string) => previewOf(two, "x.misce", text.indexOf(words)).recipe;
    expect([at("stock a"), at('"One"'), at('"Two"'), at("stock b")]).toEqual(["one", "one", "two", "two"]);
  });

  it("says so where a file has none", () => {
    expect(previewOf(library, "site.misce", 0)).toMatchObject({ recipe: "", state: "none", parts: [] });
  });
});

it("the server gives places as lines and characters of the text, with its version", () => {
  const file = "recipes/magnesium-4g.misce";
  const document = new Document(file, `file:///${file}`, 7, library.text(file)!, "utf-16");
  const session = { documentAt: () => document, group: () => ({ library }), day: "2026-11-25" };
  const host = { now: () => new Date(2026, 10, 25, 9, 30) };
  const approvals = { findings: () => [] };
  const serving = { session, host, approvals } as unknown as Serving;
  const answer = preview(serving, { uri: document.uri, position: { line: 0, character: 0 } });
  expect(answer.version).toBe(7);
  const lines = document.text.split("\n");
  const steps = answer.sections.find((s) => s.kind === "steps")!.items;
  for (const { range } of steps) expect(lines[range!.start.line]!.slice(0, range!.start.character)).toBe("    ");
  const draw = steps.find((s) => s.text.startsWith("Draw"))!;
  expect(lines[draw.range!.start.line]!.trim()).toMatch(/^draw 4 g from mag/);
});
