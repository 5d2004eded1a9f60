/**
 * Draws one recipe. Headings in order, real lists, figures in words; every row that has a place in the text holds one button
 * (`data-line`), and the rows of a list are one stop of the Tab key. Text is set as text and never read as markup.
 */
import type { Preview, PreviewItem, PreviewNote, PreviewSection, PreviewSectionKind } from "../../../shared/preview.ts";
import type { PageDocument, PageElement } from "./dom.ts";

const gradeWords: Readonly<Record<PreviewNote["severity"], string>> = {
  error: "Error",
  warning: "Warning",
  note: "Note",
};

/** What a screen reader says before the further lines of a row. */
const moreWords: Partial<Record<PreviewSectionKind, string>> = { materials: "On the shelf", steps: "Afterwards" };

/** @param sheet the sheet as drawn; it then stands in place of the rows, and what was found follows it */
export function drawPreview(
  page: PageDocument,
  preview: Preview,
  showWorking: boolean,
  sheet?: PageElement,
): PageElement[] {
  const head = element(page, "header");
  head.append(element(page, "h1", "", preview.title));
  const shownFor = sheet ? (preview.sheet?.shownFor ?? "") : "";
  const about = [preview.recipe, shownFor, preview.asOf === "" ? "" : `as of ${preview.asOf}`].filter(
    (part) => part !== "",
  );
  if (about.length > 0) head.append(element(page, "p", "about", about.join(" · ")));
  head.append(element(page, "p", `verdict ${gravest(preview)}`, preview.verdict));
  if (sheet) return [head, drawSection(page, foundIn(preview), showWorking), sheet];
  return [head, ...preview.sections.map((section) => drawSection(page, section, showWorking))];
}

/** Everything that was found, each finding with the row that it was told beside. */
function foundIn(preview: Preview): PreviewSection {
  const items = preview.sections.flatMap((section) =>
    section.items
      .filter((item) => item.notes.length > 0)
      .map((item) => ({ ...item, figure: "", working: [], more: [] })),
  );
  return { kind: "findings", heading: "Findings", items, empty: "No check found anything in this recipe." };
}

function gravest(preview: Preview): string {
  if (preview.state === "none") return "none";
  if (preview.counts.error > 0) return "error";
  if (preview.state === "stopped" || preview.counts.warning > 0) return "warning";
  return preview.counts.note > 0 ? "note" : "clear";
}

function drawSection(page: PageDocument, section: PreviewSection, showWorking: boolean): PageElement {
  const box = element(page, "section", section.kind);
  const heading = element(page, "h2", "", section.heading);
  heading.id = `heading-${section.kind}`;
  box.setAttribute("aria-labelledby", heading.id);
  box.append(heading);
  if (section.items.length === 0) {
    box.append(element(page, "p", "empty", section.empty));
    return box;
  }
  const list = element(page, section.kind === "steps" ? "ol" : "ul", "rows");
  list.setAttribute("role", "list");
  section.items.forEach((item) => {
    list.append(drawItem(page, section.kind, item, showWorking));
  });
  box.append(list);
  return box;
}

function drawItem(page: PageDocument, kind: PreviewSectionKind, item: PreviewItem, showWorking: boolean): PageElement {
  const row = element(page, "li", "row");
  const line = element(page, item.range ? "button" : "div", "line");
  if (item.range) {
    line.setAttribute("type", "button");
    line.setAttribute("data-line", String(item.range.start.line));
    line.setAttribute("data-end", String(item.range.end.line));
    line.setAttribute("data-range", JSON.stringify(item.range));
    line.setAttribute("title", "Show in the text");
    line.tabIndex = -1;
  }
  for (const part of ["label", "text", "figure"] as const) {
    // The blank keeps the words apart for a screen reader and in copied text.
    if (item[part] !== "") line.append(element(page, "span", part, item[part]), " ");
  }
  row.append(line);
  if (showWorking && item.working.length > 0) row.append(lines(page, "working", "Working", item.working));
  if (item.more.length > 0) row.append(lines(page, "more", moreWords[kind] ?? "More", item.more));
  for (const note of item.notes) {
    const told = element(page, "p", `told ${note.severity}`);
    told.append(element(page, "strong", "", gradeWords[note.severity]), ` ${note.text}`);
    row.append(told);
  }
  return row;
}

function lines(page: PageDocument, kind: string, name: string, texts: readonly string[]): PageElement {
  const list = element(page, "ul", kind);
  list.setAttribute("role", "list");
  list.setAttribute("aria-label", name);
  for (const text of texts) list.append(element(page, "li", "", text));
  return list;
}

function element(page: PageDocument, name: string, className = "", text?: string): PageElement {
  const made = page.createElement(name);
  if (className !== "") made.className = className;
  if (text !== undefined) made.textContent = text;
  return made;
}
