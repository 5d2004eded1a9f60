/** The preview's page: draws what arrives, marks the row of the cursor, and tells which row was chosen. */
import type { PageElement, PageEvent, PageWindow } from "./dom.ts";
import { drawPreview } from "./draw.ts";
import type { PageMessage, PreviewMessage } from "./messages.ts";
import { drawSheet } from "./sheet.ts";

const page = globalThis as unknown as PageWindow;
const extension = page.acquireVsCodeApi();
const main = page.document.getElementById("recipe");
const announcer = page.document.getElementById("announced");
const rowSelector = "[data-line]";

function send(message: PageMessage): void {
  extension.postMessage(message);
}

function rows(within: PageElement): PageElement[] {
  return [...within.querySelectorAll(rowSelector)];
}

/** The Tab key stops once in each list: at the marked row, else at its first. */
function setTabStops(): void {
  for (const list of main?.querySelectorAll(".rows") ?? []) {
    const all = rows(list);
    const stop = all.find((row) => row.getAttribute("aria-current") === "true") ?? all[0];
    for (const row of all) row.tabIndex = row === stop ? 0 : -1;
  }
}

function mark(line: number): void {
  if (!main) return;
  const all = rows(main);
  // A figure's place is that of the step or fact it follows from, which has a row of its own.
  const own = all.filter((r) => !r.closest(".figures") && !(main.className === "with-paper" && r.closest(".findings")));
  const around = own.filter(
    (r) => Number(r.getAttribute("data-line")) <= line && line <= Number(r.getAttribute("data-end")),
  );
  // The row that says most about just this line: the one with the fewest lines, the first of equals.
  const size = (r: PageElement) => Number(r.getAttribute("data-end")) - Number(r.getAttribute("data-line"));
  const marked = around.sort((a, b) => size(a) - size(b))[0];
  for (const row of all) {
    if (row === marked) row.setAttribute("aria-current", "true");
    else row.removeAttribute("aria-current");
  }
  setTabStops();
  const calm = page.matchMedia("(prefers-reduced-motion: reduce)").matches;
  const reading = page.document.activeElement?.closest("#recipe");
  if (marked && !reading) marked.scrollIntoView({ block: "nearest", behavior: calm ? "auto" : "smooth" });
}

function show(message: Extract<PreviewMessage, { type: "show" }>): void {
  if (!main) return;
  // Drawing anew must not take the keyboard's place away: it goes back to the row of the same number.
  const focused = page.document.activeElement?.closest(rowSelector);
  const place = focused ? rows(main).indexOf(focused) : -1;
  const { preview, showWorking, form } = message;
  const sheet = form === "sheet" && preview.sheet ? drawSheet(globalThis as never, preview.sheet) : undefined;
  main.className = sheet ? "with-paper" : "";
  main.replaceChildren(...drawPreview(page.document, preview, showWorking, sheet));
  setTabStops();
  if (place >= 0) rows(main)[place]?.focus({ preventScroll: true });
  announce(preview.verdict);
  extension.setState({ uri: message.preview.uri });
}

/**
 * Tells a screen reader the verdict when it changes, and only then: rows that follow each keystroke would drown it. The element stays
 * where all else is drawn anew, since a change is heard only in what was there before.
 */
function announce(text: string): void {
  if (announcer && announcer.textContent !== text) announcer.textContent = text;
}

function fault(text: string): void {
  if (!main) return;
  announce("");
  const told = page.document.createElement("p");
  told.className = "verdict error";
  told.setAttribute("role", "alert");
  told.textContent = text;
  main.replaceChildren(told);
}

function go(row: PageElement, takeFocus: boolean): void {
  const range = row.getAttribute("data-range");
  if (range !== null) send({ type: "go", range: JSON.parse(range), takeFocus });
}

function pressed(event: PageEvent): void {
  const row = event.target?.closest(rowSelector);
  const list = row?.closest(".rows");
  if (!row || !list) return;
  // A row of the sheet is no button, and takes the key itself.
  if (event.key === "Enter" && row.getAttribute("type") === null) {
    event.preventDefault();
    go(row, true);
    return;
  }
  const all = rows(list);
  const at = all.indexOf(row);
  const next: Readonly<Record<string, number>> = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: all.length - 1 };
  const wanted = event.key === undefined ? undefined : next[event.key];
  const other = wanted === undefined ? undefined : all[wanted];
  if (!other) return;
  event.preventDefault();
  for (const each of all) each.tabIndex = each === other ? 0 : -1;
  other.focus();
  go(other, false);
}

main?.addEventListener("keydown", pressed);
// A click shows the line and leaves the keyboard here; Enter (a click without a mouse) and a double click go over to the text.
main?.addEventListener("click", (event) => {
  const row = event.target?.closest(rowSelector);
  if (row) go(row, event.detail === 0);
});
main?.addEventListener("dblclick", (event) => {
  const row = event.target?.closest(rowSelector);
  if (row) go(row, true);
});

page.addEventListener("message", (event) => {
  const message = event.data as PreviewMessage;
  if (message.type === "show") show(message);
  else if (message.type === "cursor") mark(message.line);
  else if (message.type === "fault") fault(message.text);
});

send({ type: "ready" });
