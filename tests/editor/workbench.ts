/** The workbench as a person uses it: keys, words on the screen, files on the disk. Each wait has an end and says what it waited for. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { FrameLocator, Locator, Page } from "playwright-core";
import { accessibilityFaults } from "./accessibility.ts";

/** Long, since a machine may be busy with other tests; it is only spent where something is missing. */
const patience = 90_000;

export class Workbench {
  constructor(
    readonly page: Page,
    readonly folder: string,
    private readonly artefacts: string,
  ) {}

  private since = Date.now();

  /** For the person who waits: how long this took. */
  mark(what: string): void {
    console.log(`        ${what} ${((Date.now() - this.since) / 1000).toFixed(1)} s`);
    this.since = Date.now();
  }

  /** The workbench stands and the extension host has answered. */
  async ready(): Promise<void> {
    await this.page.locator(".monaco-workbench .part.statusbar").waitFor({ timeout: 120_000 });
    this.since = Date.now();
  }

  async keys(...keys: string[]): Promise<void> {
    for (const key of keys) await this.page.keyboard.press(key);
  }

  async open(file: string): Promise<void> {
    await this.keys("Control+p");
    await this.page.locator(".quick-input-widget input").first().waitFor({ timeout: patience });
    await this.page.keyboard.type(file);
    await this.page
      .locator(".quick-input-list .monaco-list-row", { hasText: file })
      .first()
      .waitFor({ timeout: patience });
    await this.keys("Enter");
    await this.opened(file);
  }

  /** The file stands in front with its text. */
  async opened(file: string): Promise<void> {
    await this.page.locator(`.tab.active[data-resource-name="${file}"]`).waitFor({ timeout: patience });
    await this.page.locator(".editor-instance .view-line").first().waitFor({ timeout: patience });
  }

  /** Line and column as the editor counts them, from 1. */
  async goTo(line: number, column: number): Promise<void> {
    await this.keys("Control+g");
    await this.page.locator(".quick-input-widget input").first().waitFor({ timeout: patience });
    await this.page.keyboard.type(`:${line}:${column}`.slice(1));
    await this.keys("Enter");
    await this.page.locator(".quick-input-widget").waitFor({ state: "hidden", timeout: patience });
  }

  async command(title: string): Promise<void> {
    await this.keys("F1");
    await this.page.locator(".quick-input-widget input").first().waitFor({ timeout: patience });
    await this.page.keyboard.type(title);
    await this.page
      .locator(".quick-input-list .monaco-list-row", { hasText: title })
      .first()
      .waitFor({ timeout: patience });
    await this.keys("Enter");
  }

  /** Chooses a lens over the recipe, from the top of the file. */
  async lens(title: string): Promise<void> {
    await this.focusEditor();
    await this.goTo(1, 1);
    const lens = this.page.locator(".codelens-decoration a", { hasText: title });
    await this.sees(lens, `the lens "${title}"`);
    await lens.first().click();
  }

  /** Puts the keyboard into the text, wherever it was. */
  async focusEditor(): Promise<void> {
    await this.keys("Control+1");
  }

  async save(): Promise<void> {
    await this.keys("Control+s");
  }

  disk(file: string): string {
    return readFileSync(join(this.folder, file), "utf8");
  }

  /** Waits until the file on the disk is as wanted; saving again each time, since an answer may still be on its way. */
  async diskBecomes(file: string, isWanted: (text: string) => boolean, what: string): Promise<string> {
    const until = Date.now() + patience;
    for (;;) {
      const text = this.disk(file);
      if (isWanted(text)) return text;
      if (Date.now() > until) throw new Error(`${file}: waited for ${what}; it holds:\n${text}`);
      await this.save();
      await this.page.waitForTimeout(150);
    }
  }

  async sees(locator: Locator, what: string, state: "visible" | "hidden" = "visible"): Promise<void> {
    try {
      await locator.first().waitFor({ state, timeout: patience });
    } catch {
      await this.shot("fault");
      throw new Error(`waited ${patience / 1000} s for ${what} to be ${state}; see fault.png`);
    }
  }

  /** Presses the keys until what they open is seen: a list that opens before its answer has come closes again. */
  async opens(keys: string, locator: Locator, what: string): Promise<void> {
    for (let i = 0; i < 6; i++) {
      await this.keys(keys);
      try {
        await locator.first().waitFor({ timeout: patience / 6 });
        return;
      } catch {
        await this.keys("Escape");
      }
    }
    await this.sees(locator, what);
  }

  /** Lines of the text as shown, blanks as blanks. */
  line(text: string): Locator {
    return this.page.locator(".editor-instance .view-line", {
      hasText: new RegExp(escaped(text).replaceAll(" ", "[\\s\\u00A0]")),
    });
  }

  /** The number of the cursor's line, from 1, beside the text. */
  activeLine(line: number): Locator {
    return this.page.locator(".editor-instance .active-line-number", { hasText: new RegExp(`^${line}$`) });
  }

  /** The preview inside its two frames. */
  preview(): FrameLocator {
    return this.page.frameLocator("iframe.webview.ready").frameLocator("iframe#active-frame");
  }

  /** Fails where a page in the editor has what keeps it from those who do not see it, or work without a mouse. */
  async readableByAll(inside: FrameLocator, what: string): Promise<void> {
    const frame = await (await inside.locator("html").elementHandle())?.ownerFrame();
    if (!frame) throw new Error(`${what} is not there`);
    expectNone(await accessibilityFaults(frame), what);
  }

  /** The same for a page on the disk. */
  async pageReadableByAll(file: string): Promise<void> {
    const page = await this.page.context().browser()!.newPage();
    await page.setContent(readFileSync(file, "utf8"));
    const faults = await accessibilityFaults(page.mainFrame());
    await page.close();
    expectNone(faults, file);
  }

  async shot(name: string): Promise<void> {
    await this.page.screenshot({ path: join(this.artefacts, `${name}.png`) });
  }
}

function escaped(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}

function expectNone(faults: readonly string[], what: string): void {
  if (faults.length > 0) throw new Error(`not everybody can read ${what}:\n${faults.join("\n")}`);
}
