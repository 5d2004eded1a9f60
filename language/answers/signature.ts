/** The form of the step being written, and which part of it stands next. */
import { verbsByWord } from "../bench/verbs/index.ts";
import type { Library } from "../library.ts";
import { looseWord } from "../model/form-match.ts";
import { showForm } from "../model/form-shown.ts";
import { factTables } from "../model/read-chunk.ts";
import { awaitedAfter } from "./awaited.ts";
import { blockWordOf, placeAt, typedRow } from "./place.ts";

export interface SignatureLine {
  text: string;
  about: string;
  /** Stretches of `text` that stand for a slot, with the slot's name. */
  parts: { start: number; end: number; slot: string }[];
  /** Index of the part that stands next; undefined where none does. */
  next: number | undefined;
}

export function signaturesAt(library: Library, file: string, offset: number): SignatureLine[] {
  const place = placeAt(library, file, offset);
  if (!place?.line || place.inComment || place.headOf) return [];
  const { before } = typedRow(place);
  const first = looseWord(before[0]);
  if (first === undefined) return [];
  const block = blockWordOf(place.blocks.at(-1));
  const steps = block === "steps" || block === "only";
  const forms = steps
    ? (verbsByWord.get(first) ?? [])
    : Object.hasOwn(factTables[block] ?? {}, first)
      ? [{ ...factTables[block]![first]!, word: first }]
      : [];
  const rest = before.slice(1);
  return forms.flatMap(({ word, form, about }) => {
    const open = awaitedAfter(form.start, rest);
    if (open.length === 0 && forms.length > 1) return [];
    const { text, parts } = shown(word, form.text);
    const slot = open.find((a) => a.kind === "slot" || a.kind === "unit")?.slot;
    const next = slot === undefined ? -1 : parts.findIndex((p) => p.slot === slot);
    return [{ text, about, parts, next: next < 0 ? undefined : next }];
  });
}

function shown(word: string, formText: string): Pick<SignatureLine, "text" | "parts"> {
  const parts: SignatureLine["parts"] = [];
  let text = word;
  let at = 0;
  const spaced = ` ${formText}`;
  for (const match of spaced.matchAll(/<([^:>]+):([^>]+)>/g)) {
    text += spaced.slice(at, match.index);
    const slot = match[1]!.replace("?", "");
    const part = showForm(match[0]);
    parts.push({ start: text.length, end: text.length + part.length, slot });
    text += part;
    at = match.index + match[0].length;
  }
  return { text: text + spaced.slice(at), parts };
}
