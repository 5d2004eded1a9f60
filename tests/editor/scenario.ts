/** What an author does in the editor, part by part; each part goes on from where the one before has left off. */
import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Workbench } from "./workbench.ts";

interface Part {
  name: string;
  run(bench: Workbench): Promise<void>;
}

const recipe = "oxytocin-10-units.misce";
const path = `recipes/${recipe}`;
const step = "    replace filter on syringe with needle\n";
const renamed = "oxytocin-glass-ampoule";

/** The file that the window opens with. */
export const firstFile = path;

/** Makes the recipe faulty, before anybody looks: the filter that was drawn through stays on for the injection. */
export function prepare(workspace: string): void {
  const file = join(workspace, path);
  git(workspace, "init", "--quiet");
  git(workspace, "add", "--all");
  git(workspace, "-c", "user.name=Author", "-c", "user.email=author@example.org", "commit", "--quiet", "-m", "Library");
  const good = readFileSync(file, "utf8");
  if (!good.includes(step)) throw new Error("the sample has no filter step to leave out");
  writeFileSync(file, good.replace(step, ""));
}

function git(folder: string, ...words: string[]): void {
  execFileSync("git", words, { cwd: folder, stdio: "pipe" });
}

/** Line number, from 1, of the first line that holds these words. */
function lineOf(text: string, words: string): number {
  const index = text.split("\n").findIndex((line) => line.includes(words));
  if (index < 0) throw new Error(`no line says "${words}"`);
  return index + 1;
}

/** Column, from 1, inside the words on their line. */
function columnOf(text: string, words: string): number {
  const line = text.split("\n").find((l) => l.includes(words)) ?? "";
  return line.indexOf(words) + 2;
}

async function goToWords(bench: Workbench, words: string): Promise<void> {
  const text = bench.disk(path);
  await bench.goTo(lineOf(text, words), columnOf(text, words));
}

export const scenario: Part[] = [
  {
    name: "a faulty recipe shows its squiggle, its row in Problems and its count in the status bar",
    async run(bench) {
      await bench.opened(recipe);
      bench.mark("open");
      await bench.sees(bench.page.locator(".editor-instance .squiggly-error"), "the squiggle");
      bench.mark("squiggle");
      await bench.command("Misce: Show All Findings");
      const row = bench.page.locator(".markers-panel .monaco-list-row", { hasText: "A filter serves one way only" });
      await bench.sees(row, "the row in Problems");
      const status = bench.page.locator(".statusbar-item", { hasText: "as of 2026-11-25 (fixed)" });
      await bench.sees(status, "the as-of date in the status bar");
      await bench.shot("problems");
      await bench.command("View: Toggle Panel Visibility");
      await bench.focusEditor();
    },
  },
  {
    name: "hover gives the finding, its reason and what the word means",
    async run(bench) {
      await goToWords(bench, "syringe into bag");
      await bench.keys("Control+k", "Control+i");
      const hover = bench.page.locator(".monaco-hover:not(.hidden)", { hasText: "serves one way only" });
      await bench.sees(hover, "the finding in the hover");
      await bench.shot("hover");
      await bench.keys("Escape", "Escape");
    },
  },
  {
    name: "completion offers whole steps",
    async run(bench) {
      await goToWords(bench, "expel air from syringe");
      await bench.keys("End", "Enter");
      await bench.page.keyboard.type("repl", { delay: 30 });
      const row = bench.page.locator(".suggest-widget .monaco-list-row", { hasText: "replace" });
      await bench.sees(row, "a step in the list");
      await bench.shot("completion");
      await bench.keys("Escape");
      await bench.command("Revert File");
      await bench.sees(bench.page.locator(".tab.active:not(.dirty)"), "the text as it was");
    },
  },
  {
    name: "the fix puts the filter step in, and the squiggle goes",
    async run(bench) {
      await goToWords(bench, "syringe into bag");
      await bench.keys("Control+.");
      const fix = bench.page.locator(".action-widget .monaco-list-row", {
        hasText: "Replace filter with needle before",
      });
      await bench.sees(fix, "the fix");
      await bench.shot("finding");
      await fix.first().click();
      await bench.sees(bench.line("replace filter on syringe with needle"), "the step in the text");
      await bench.sees(bench.page.locator(".editor-instance .squiggly-error"), "the squiggle", "hidden");
      await bench.diskBecomes(path, (text) => text.includes(step), "the filter step");
    },
  },
  {
    name: "a stock is renamed across the files of the library",
    async run(bench) {
      await goToWords(bench, "oxytocin-ampoule");
      await bench.keys("F2");
      const input = bench.page.locator(".rename-box input");
      await bench.sees(input, "the box for the new name");
      await input.first().fill(renamed);
      await bench.keys("Enter");
      await bench.sees(bench.line(renamed), "the new name in the recipe");
      await bench.command("File: Save All");
      const others = ["stock/ampoules.misce", "recipes/oxytocin-40-units.misce", "lots.misce"];
      for (const file of [path, ...others]) await bench.diskBecomes(file, (t) => t.includes(renamed), "the new name");
      for (const file of misceFiles(bench.folder)) {
        if (/(^|[^\w-])oxytocin-ampoule\b/.test(bench.disk(file)))
          throw new Error(`${file} still says oxytocin-ampoule`);
      }
    },
  },
  {
    name: "formatting gives the canonical layout back and keeps the comment",
    async run(bench) {
      await bench.open(recipe);
      const canonical = bench.disk(path);
      const line = "    route           intravenous";
      if (!canonical.includes(line)) throw new Error("the sample has no line to disarrange");
      await goToWords(bench, "route           intravenous");
      await bench.keys("Home", "Shift+End");
      await bench.page.keyboard.type("route    intravenous # by the reviewer's wish");
      await bench.command("Format Document");
      const wanted = `${line}  # by the reviewer's wish`;
      const text = await bench.diskBecomes(path, (t) => t.includes(wanted), "the canonical line with its comment");
      if (text.replace("  # by the reviewer's wish", "") !== canonical) throw new Error(`more has changed:\n${text}`);
    },
  },
  {
    name: "derived figures stand in the text",
    async run(bench) {
      // Room for the figures, and for the preview after them.
      await bench.command("View: Toggle Primary Side Bar Visibility");
      await goToWords(bench, "Oxytocin 10 units");
      const hint = bench.page.locator(".editor-instance .view-line", { hasText: "1,001" });
      await bench.sees(hint, "what the bag holds after the injection");
      for (const words of ["print", "compare with last commit", "approve"])
        await bench.sees(bench.page.locator(".codelens-decoration", { hasText: words }).first(), `the lens "${words}"`);
      await goToWords(bench, "inject syringe into bag");
      await bench.shot("hints");
    },
  },
  {
    name: "the preview opens, follows the cursor, and a chosen row shows its line",
    async run(bench) {
      await goToWords(bench, "draw 10 units");
      await bench.keys("Control+k", "v");
      const preview = bench.preview();
      await bench.sees(preview.locator("h1", { hasText: "Oxytocin 10 units" }), "the title in the preview");
      const marked = preview.locator('[aria-current="true"]');
      await bench.sees(marked.filter({ hasText: "Draw 10 units" }), "the row of the cursor");
      await goToWords(bench, "inject syringe into bag");
      await bench.sees(
        marked.filter({ hasText: /Inject syringe .*into bag/ }),
        "the row of the cursor after it has moved",
      );
      await bench.shot("preview");
      await bench.readableByAll(preview, "the preview");
      await preview.locator(".steps tr", { hasText: "Label bag" }).click();
      const line = lineOf(bench.disk(path), "label bag");
      await bench.sees(bench.activeLine(line), "the cursor on the chosen line");
      await bench.sees(marked.filter({ hasText: "Label bag" }), "the chosen row marked");
    },
  },
  {
    name: "the preview is worked by the keyboard alone and tells a fault as it is typed",
    async run(bench) {
      const preview = bench.preview();
      await preview.locator(".steps tr", { hasText: "Label bag" }).focus();
      await bench.keys("ArrowUp");
      await bench.sees(preview.locator(".steps tr:focus", { hasText: "Seal bag" }), "the row above in focus");
      await bench.keys("Enter");
      await bench.sees(bench.page.locator(".editor-instance .monaco-editor.focused"), "the keyboard back in the text");
      // The keyboard arrives before the cursor does.
      await bench.sees(bench.activeLine(lineOf(bench.disk(path), "seal bag")), "the cursor on the line of the row");
      await goToWords(bench, "diluent-volume");
      await bench.keys("Home", "Shift+End");
      await bench.page.keyboard.type("diluent-volume  2 L");
      await bench.sees(preview.locator(".verdict.error"), "the verdict");
      const told = preview.locator(".findings .told.error");
      await bench.sees(told.first(), "the finding above the sheet");
      await bench.sees(preview.locator(".banner", { hasText: "NOT FOR USE" }), "the mark on the sheet");
      const lens = bench.page.locator(".codelens-decoration", { hasText: /\b2 errors\b/ });
      await bench.sees(lens.first(), "the count above the recipe");
      await bench.shot("preview-finding");
      await bench.readableByAll(preview, "the preview with a finding");
      await bench.command("Revert File");
      await bench.sees(told, "the finding after the text is put back", "hidden");
      await bench.sees(lens, "the count after the text is put back", "hidden");
    },
  },
  {
    name: 'the lens "compare with last commit" tells what the change does to the patient',
    async run(bench) {
      await bench.focusEditor();
      await goToWords(bench, "dose            10 units");
      await bench.keys("Home", "Shift+End");
      await bench.page.keyboard.type("dose            20 units per bag");
      await bench.lens("compare with last commit");
      await bench.sees(bench.line("dose of oxytocin: 10 units → 20 units"), "the dose before and after");
      await bench.sees(bench.line("error dose-not-delivered appeared"), "the verdict that changed");
      await bench.shot("compare");
      await bench.focusEditor();
      await goToWords(bench, "dose            20 units");
      await bench.keys("Home", "Shift+End");
      await bench.page.keyboard.type("dose            10 units per bag");
      await bench.diskBecomes(path, (text) => text.includes("dose            10 units per bag"), "the dose as it was");
    },
  },
  {
    name: 'the lens "approve" writes the record for the role',
    async run(bench) {
      await bench.lens("approve");
      const input = bench.page.locator(".quick-input-widget input");
      await bench.sees(input, "the question for the role");
      await bench.keys("Enter");
      const told = bench.page.locator(".notification-toast", { hasText: "Approved by pharmacist" });
      await bench.sees(told, "the answer");
      const record = JSON.parse(bench.disk(`recipes/${recipe.replace(".misce", ".approvals.json")}`));
      if (!JSON.stringify(record).includes("misce-meaning-3:")) throw new Error("the record holds no fingerprint");
      await bench.command("Notifications: Clear All Notifications");
    },
  },
  {
    name: 'the lens "print" makes the sheet and puts it where the author says',
    async run(bench) {
      const sheet = join(bench.folder, "recipes/oxytocin-10-units.html");
      rmSync(sheet, { force: true });
      await bench.lens("print");
      const input = bench.page.locator(".quick-input-widget input");
      await bench.sees(input, "the question for the place");
      await bench.shot("print");
      await bench.keys("Enter");
      const told = bench.page.locator(".notification-toast", { hasText: "Open it in a browser and print it" });
      await bench.sees(told, "the answer");
      if (!existsSync(sheet)) throw new Error("no sheet was written");
      const page = readFileSync(sheet, "utf8");
      for (const words of ["<title>Oxytocin", "misce-meaning-3"]) {
        if (!page.includes(words)) throw new Error(`the sheet does not say "${words}"`);
      }
      await bench.pageReadableByAll(sheet);
      await bench.command("Notifications: Clear All Notifications");
    },
  },
  {
    name: "in a folder without git the comparison says so, and nothing is lost",
    async run(bench) {
      rmSync(join(bench.folder, ".git"), { recursive: true, force: true });
      await bench.lens("compare with last commit");
      await bench.sees(bench.line("was not compared with the last commit"), "the reason");
      await bench.shot("compare-no-git");
    },
  },
];

function misceFiles(folder: string): string[] {
  return (readdirSync(folder, { recursive: true }) as string[]).filter((name) => name.endsWith(".misce"));
}
