/**
 * The little of a browser that the page uses, as types. The types of a whole browser would make names such as `name` and
 * `event` known everywhere in the repository; and so the page can be drawn in a test without one.
 */

export interface PageElement {
  id: string;
  className: string;
  textContent: string | null;
  tabIndex: number;
  readonly children: ArrayLike<PageElement>;
  append(...parts: (PageElement | string)[]): void;
  replaceChildren(...parts: PageElement[]): void;
  setAttribute(name: string, value: string): void;
  removeAttribute(name: string): void;
  getAttribute(name: string): string | null;
  addEventListener(type: string, heard: (event: PageEvent) => void): void;
  querySelectorAll(selector: string): Iterable<PageElement>;
  querySelector(selector: string): PageElement | null;
  closest(selector: string): PageElement | null;
  focus(options?: { preventScroll: boolean }): void;
  scrollIntoView(options: { block: "nearest"; behavior: "auto" | "smooth" }): void;
}

export interface PageEvent {
  readonly key?: string;
  readonly data?: unknown;
  /** Presses of the mouse; 0 where the keyboard did it. */
  readonly detail?: number;
  readonly target?: PageElement;
  preventDefault(): void;
}

export interface PageDocument {
  readonly activeElement: PageElement | null;
  createElement(name: string): PageElement;
  getElementById(id: string): PageElement | null;
}

export interface PageWindow {
  document: PageDocument;
  addEventListener(type: string, heard: (event: PageEvent) => void): void;
  matchMedia(query: string): { matches: boolean };
  acquireVsCodeApi(): { postMessage(message: unknown): void; setState(state: unknown): void };
}
