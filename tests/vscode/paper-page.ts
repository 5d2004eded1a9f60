/** A page of plain objects: enough of a browser to draw the preview and to read what was drawn. */
import type { PageDocument, PageElement } from "../../client/vscode/page/dom.ts";

export class PaperElement {
  id = "";
  className = "";
  tabIndex = 0;
  readonly parts: (PaperElement | string)[] = [];
  readonly attributes = new Map<string, string>();

  constructor(readonly name: string) {}

  get textContent(): string {
    return this.parts.map((p) => (typeof p === "string" ? p : p.textContent)).join("");
  }

  set textContent(text: string | null) {
    this.parts.splice(0, this.parts.length, ...(text ? [text] : []));
  }

  append(...parts: (PaperElement | string)[]): void {
    this.parts.push(...parts);
  }

  querySelector(): null {
    return null;
  }

  setAttribute(name: string, value: string): void {
    this.attributes.set(name, value);
  }

  getAttribute(name: string): string | null {
    return this.attributes.get(name) ?? null;
  }

  /** All elements in and under this one, in the order in which they are read. */
  all(): PaperElement[] {
    return [this, ...this.parts.flatMap((p) => (typeof p === "string" ? [] : p.all()))];
  }
}

export const paper: PageDocument = {
  activeElement: null,
  createElement: (name) => new PaperElement(name) as unknown as PageElement,
  getElementById: () => null,
};

export function drawn(elements: readonly PageElement[]): PaperElement[] {
  return elements.flatMap((e) => (e as unknown as PaperElement).all());
}
