import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";

export const stockIncomplete = declarationCheck({
  name: "stock-incomplete",
  family: "record",
  severity: "warning",
  title: "A product of which the label's main facts are left open",
  why: "Volumes, doses and storage are computed and checked from them.",
  source: "common practice",
  bad: example(["  made-of    polyolefin\n  doses      single\n", "  made-of    polyolefin\n"]),
  good: example(),
  *find({ declaration }) {
    if (declaration.kind !== "stock") return;
    const { facts } = declaration;
    const has = (
      word: "drug" | "fluid" | "strength" | "content" | "contains" | "fill" | "doses" | "storage" | "empty",
    ) => facts.all(word as "drug").length > 0 || facts.isUnread(word);
    const container = facts.one("container")?.slots.kind.choice ?? "";
    // An evacuated bottle is sold with nothing in it, or with a powder or liquid that its label then names.
    const isBare = container === "evacuated-bottle" && !has("drug") && !has("fluid");
    const isEmpty =
      isBare ||
      facts.isUnread("container") ||
      container.startsWith("empty") ||
      container === "infusor" ||
      container === "cassette";
    const isPowder = container === "powder-vial";
    const lacking: string[] = [];
    if (!isEmpty && !has("drug") && !has("fluid") && !has("contains")) lacking.push("`drug` or `fluid`");
    if (has("drug") && !has("strength") && !has("content") && !has("contains")) lacking.push("`strength` or `content`");
    if (!isEmpty && !isPowder && !has("fill")) lacking.push("`fill`");
    if (!isEmpty && !has("doses")) lacking.push("`doses` single or multiple");
    if (!has("storage")) lacking.push("`storage`");
    if (lacking.length > 0) yield { at: declaration.name, name: declaration.name.name, lacking };
  },
  say: ({ name, lacking }) => ({ text: `${name} does not state ${lacking.join(", ")}. Add it from the label.` }),
});
