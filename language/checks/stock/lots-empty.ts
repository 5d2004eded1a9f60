import { declarationCheck } from "../check.ts";
import { example } from "../example.ts";

export const lotsEmpty = declarationCheck({
  name: "lots-empty",
  family: "stock",
  severity: "warning",
  title: "A shelf on which no lot stands",
  why: "Without a lot there is no expiry to check and nothing to take from the shelf.",
  source: "common practice",
  bad: example(['  lot "KQ-2291"  expires 2027-04\n', ""]),
  good: example(),
  *find({ declaration, reading }) {
    if (declaration.kind !== "lots" || declaration.facts.all("lot").length > 0) return;
    const block = reading.blocks.find((b) => b.start <= declaration.head.start && declaration.head.start <= b.end);
    // A line that cannot be read has its own finding.
    if (block?.body.some((entry) => entry.kind === "line")) return;
    yield { at: declaration.name, stock: declaration.name.name };
  },
  say: ({ stock }) => ({
    text: `No lot of ${stock} stands here. Add \`lot "NUMBER" expires YYYY-MM\` for each on the shelf.`,
  }),
});
