/**
 * No word of the language is without an example: every fact of every block with each of its parts and choices, every verb with each of
 * its parts, and the lines that are neither, stand in a page in a form that is read.
 */
import { expect, test } from "vitest";
import { planOf } from "../../language/bench/plan.ts";
import { allVerbs } from "../../language/bench/verbs/index.ts";
import type { Declaration } from "../../language/model/declaration.ts";
import type { Facts } from "../../language/model/facts.ts";
import { slotTypes } from "../../language/model/form-compile.ts";
import { factTables, readChunk } from "../../language/model/read-chunk.ts";
import { splitChunks } from "../../language/syntax/chunks.ts";
import { readPages } from "./pages.ts";

/** `drug rate`, `drug rate any?`, `site cabinet = isolator`. */
const shown = new Set<string>();

for (const { cases } of readPages()) {
  for (const { given, text } of cases) {
    for (const chunk of splitChunks(`${given}${text}`)) {
      for (const declaration of readChunk(chunk).declarations) notice(declaration);
    }
  }
}

function notice(declaration: Declaration): void {
  facts(declaration.kind, declaration.facts);
  if (declaration.kind === "drug") for (const stable of declaration.stable) facts("stable", stable);
  if (declaration.kind === "stock" && declaration.reconstitute) facts("reconstitute", declaration.reconstitute);
  if (declaration.kind !== "recipe") return;
  if (declaration.order) facts("order", declaration.order);
  if (declaration.labelText) facts("label-text", declaration.labelText);
  for (const each of declaration.preparations) facts("preparation", each.facts);
  for (const each of declaration.intermediates) facts("intermediate", each.facts);
  for (const each of declaration.examples) facts("example", each.facts);
  for (const { count, when } of declaration.materials) {
    if (count) shown.add("material with a count");
    if (when) shown.add("material with a condition");
  }
  for (const { on } of declaration.deviations) shown.add(on ? "deviation on a thing" : "deviation");
  for (const { only } of declaration.steps) if (only.length > 0) shown.add("only when");
  for (const { verb, slots, claims } of planOf(declaration).steps) {
    parts(titleOf(verb), slots);
    for (const { kind, isRange } of claims) shown.add(isRange ? `${kind} a range` : kind);
  }
}

function facts(block: string, read: Facts): void {
  for (const fact of read.every()) {
    parts(`${block} ${fact.word}`, fact.slots);
    if (fact.when) shown.add(`${block} with a condition`);
    if (fact.because) shown.add(`${block} with a reason`);
    if (fact.source && fact.word !== "source" && fact.source.start > fact.start && fact.source.end <= fact.end) {
      shown.add("a source behind its fact");
    }
  }
}

/** `draw`; two verbs begin with `check`. */
function titleOf(verb: (typeof allVerbs)[number]): string {
  return verb.form.text.startsWith("by ") ? `${verb.word} by` : verb.word;
}

function parts(form: string, slots: unknown): void {
  shown.add(form);
  for (const [name, slot] of Object.entries(slots as Record<string, object | undefined>)) {
    if (slot === undefined) continue;
    shown.add(`${form} <${name}>`);
    if ("choice" in slot) shown.add(`${form} = ${slot.choice}`);
  }
}

function wanted(title: string, form: string): string[] {
  const slots = [...form.matchAll(/<([A-Za-z]+)\??:([^>]+)>/g)];
  return [
    title,
    ...slots.flatMap(([, name, type]) =>
      slotTypes.has(type!) ? [`${title} <${name}>`] : type!.split("|").map((choice) => `${title} = ${choice}`),
    ),
  ];
}

test("every fact stands in a page, with each of its parts", () => {
  const all = Object.entries(factTables).flatMap(([block, table]) =>
    Object.entries(table).flatMap(([word, def]) => wanted(`${block} ${word}`, def.form.text)),
  );
  expect(all.length).toBeGreaterThan(300);
  expect(all.filter((each) => !shown.has(each))).toEqual([]);
});

test("every verb stands in a page, with each of its parts", () => {
  const all = allVerbs.flatMap((verb) => wanted(titleOf(verb), verb.form.text));
  expect(all.length).toBeGreaterThan(100);
  expect(all.filter((each) => !shown.has(each))).toEqual([]);
});

test("every line that is neither stands in a page", () => {
  const others = [
    "material with a count",
    "material with a condition",
    "order with a condition",
    "site with a reason",
    "a source behind its fact",
    "deviation",
    "deviation on a thing",
    "only when",
    "moves",
    "moves a range",
    "giving",
    "leaving",
  ];
  expect(others.filter((each) => !shown.has(each))).toEqual([]);
});
