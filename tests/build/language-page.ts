/** The language as a page: every block with its lines, made from the forms by which they are read. */
import {
  type BlockWords,
  claimsAbout,
  type LineWords,
  languageBlocks,
  placeholders,
  trailingAbout,
} from "../../language/answers/language-words.ts";
import { policyEditions } from "../../language/model/beyond-use-policies.ts";
import { builtInDevices } from "../../language/model/built-in-devices.ts";
import { percentRows, unitRows } from "../../language/quantities/unit-table.ts";

/** @returns Markdown */
export function languagePage(): string {
  const lines = [
    "# The words of the language",
    "",
    "Made from the forms by which recipes are read: `npm run pages`. Misce supports and does not replace the pharmacist's check, local procedures and licensed practice.",
    "The language by example, with its findings, stands in [tests/spec](../tests/spec). `misce explain WORD` prints the part of a block, line or verb.",
    "",
    "What stands in capitals is put in by the author:",
    "",
    ...placeholders.map(({ word, about }) => `- \`${word}\`: ${about}`),
    "",
    "Words that may follow on a line of a block, or on the next:",
    "",
    ...trailingAbout.map(({ form, about }) => `- \`${form}\`: ${about}`),
    "",
    "Behind a step, as the second check:",
    "",
    ...claimsAbout.map(({ form, about }) => `- \`${form}\`: ${about}`),
    ...languageBlocks().flatMap(blockPart),
    "",
    "## What every library has",
    "",
    "Devices, to be named in `materials` without a declaration:",
    "",
    builtInDevices()
      .map(({ lone }) => `\`${lone.name.name}\``)
      .join(", "),
    "",
    "Beyond-use editions, for `beyond-use` of the site, each with its categories:",
    "",
    ...policyEditions.map(
      ({ name, title, categories }) => `- \`${name}\` (${title}): ${categories.map((c) => `\`${c}\``).join(", ")}`,
    ),
    "",
    "Units, in the spelling that is printed; a compound such as `mg/kg/h` is made of them:",
    "",
    [...unitRows.filter((row) => !row.notInRecipes), ...percentRows]
      .map(({ spelling }) => `\`${spelling}\``)
      .join(", "),
  ];
  return `${lines.join("\n")}\n`;
}

function blockPart({ word, head, about, within, lines, blocks }: BlockWords): string[] {
  const place = within === undefined ? "" : ` Stands in \`${within}\`.`;
  return [
    "",
    `${within === undefined ? "##" : "###"} ${word}`,
    "",
    `\`${head}\` ${about}${place}`,
    "",
    "| line | meaning |",
    "| --- | --- |",
    ...lines.map((line) => `| ${[`\`${line.form}\``, explained(line)].map(cell).join(" | ")} |`),
    ...blocks.map(({ form, about }) => `| ${[`\`${form}\``, `A block. ${about}`].map(cell).join(" | ")} |`),
  ];
}

function explained({ meaning, cautions }: LineWords): string {
  return cautions.length > 0 ? `${meaning} At the bench: ${cautions.join(" ")}` : meaning;
}

function cell(text: string): string {
  return text.replaceAll("|", "\\|").replaceAll("\n", " ");
}
