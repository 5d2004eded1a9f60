/** A comparison as plain text, as Markdown for a review comment, and as one self-contained HTML page. Pure. */
import type { Comparison, DeclarationChange } from "../../shared/comparison.ts";
import {
  alarmLine,
  declarationLine,
  gathered,
  headline,
  type SectionLine,
  sectionsOf,
  unreadLines,
} from "./comparison-words.ts";

export type ComparisonForm = "text" | "markdown" | "json" | "html";

export const comparisonForms: readonly ComparisonForm[] = ["text", "markdown", "json", "html"];

export function comparisonReport(comparison: Comparison, form: ComparisonForm): string {
  switch (form) {
    case "text":
      return comparisonText(comparison);
    case "markdown":
      return comparisonMarkdown(comparison);
    case "html":
      return comparisonHtml(comparison);
    default:
      return `${JSON.stringify(comparison, null, 2)}\n`;
  }
}

function comparisonText(comparison: Comparison): string {
  const { told, lists } = gathered(comparison.declarations);
  const blocks = told.map((change) =>
    [
      declarationLine(change),
      ...sectionsOf(change).flatMap(({ title, lines }) => [
        `  ${title}`,
        ...lines.flatMap(({ text, under }) => [`    ${text}`, ...under.map((line) => `      ${line}`)]),
      ]),
    ].join("\n"),
  );
  for (const { title, lines } of lists) blocks.push([title, ...lines.map((line) => `  ${line}`)].join("\n"));
  return `${paragraphs(comparison, blocks, "\n").join("\n\n")}\n`;
}

function paragraphs(comparison: Comparison, blocks: readonly string[], newline: string): string[] {
  const unread = unreadLines(comparison);
  return [
    headline(comparison),
    alarmLine(comparison),
    ...blocks,
    unread.length === 0 ? "" : ["Not compared in whole", ...unread.map((line) => `  ${line}`)].join(newline),
    `Judged as of ${comparison.asOf}. ${comparison.notice}`,
  ].filter((text) => text !== "");
}

/** GitHub, GitLab and others read this alike: headings, lists, one folded block for each long list. */
function comparisonMarkdown(comparison: Comparison): string {
  const unread = unreadLines(comparison);
  const alarm = alarmLine(comparison);
  const { told, lists } = gathered(comparison.declarations);
  const parts = [
    `## Change in meaning`,
    marked(headline(comparison)),
    alarm === "" ? "" : `**${marked(alarm)}**`,
    ...told.map(markdownOf),
    ...lists.map(({ title, lines }) => `### ${title}\n\n${list(lines)}`),
    unread.length === 0 ? "" : `### Not compared in whole\n\n${list(unread)}`,
    `_Judged as of ${comparison.asOf}. ${comparison.notice}_`,
  ];
  return `${parts.filter((part) => part !== "").join("\n\n")}\n`;
}

function markdownOf(change: DeclarationChange): string {
  const sections = sectionsOf(change).map(({ title, lines }) => {
    if (lines.length <= 8) return `**${title}**\n\n${nestedList(lines)}`;
    return `<details><summary><b>${title}</b> (${lines.length})</summary>\n\n${nestedList(lines)}\n\n</details>`;
  });
  return [`### ${marked(declarationLine(change))}`, ...sections].join("\n\n");
}

function nestedList(lines: readonly SectionLine[]): string {
  return lines
    .map(({ text, under }) => [list([text]), ...under.map((line) => `  ${list([line])}`)].join("\n"))
    .join("\n");
}

function list(lines: readonly string[]): string {
  return lines.map((line) => `- ${marked(line)}`).join("\n");
}

/** A text of the library must not turn into a heading, a link, a mention or a tag of the comment. */
function marked(text: string): string {
  return text
    .replace(/\s+/g, " ")
    .replace(/[\\`*_[\]<>|~#@]/g, (sign) =>
      sign === "<" ? "&lt;" : sign === ">" ? "&gt;" : sign === "@" ? "&#64;" : `\\${sign}`,
    );
}

function comparisonHtml(comparison: Comparison): string {
  const unread = unreadLines(comparison);
  const alarm = alarmLine(comparison);
  const { told, lists } = gathered(comparison.declarations);
  const body = [
    `<h1>Change in meaning</h1>`,
    `<p>${escaped(headline(comparison))}</p>`,
    alarm === "" ? "" : `<p class="alarm">${escaped(alarm)}</p>`,
    ...told.map(htmlOf),
    ...lists.map(({ title, lines }) => `<section class="fact"><h2>${title}</h2>${items(lines)}</section>`),
    unread.length === 0 ? "" : `<section><h2>Not compared in whole</h2>${items(unread)}</section>`,
    `<footer>Judged as of ${escaped(comparison.asOf)}. ${escaped(comparison.notice)}</footer>`,
  ].join("\n");
  // No script and nothing from elsewhere: the page may be opened from a build's artefacts.
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Change in meaning: ${escaped(comparison.before)} to ${escaped(comparison.after)}</title>
<style>${style}</style>
</head>
<body>
<main>
${body}
</main>
</body>
</html>
`;
}

function htmlOf(change: DeclarationChange): string {
  const sections = sectionsOf(change).map(({ title, lines }) => `<h3>${escaped(title)}</h3>${nestedItems(lines)}`);
  const level = change.level === "none" ? "" : ` <span class="level">${change.level}</span>`;
  return `<section class="${change.level}"><h2>${escaped(declarationLine(change))}${level}</h2>${sections.join("")}</section>`;
}

const alarms = /(ABOUT )?[\d,]+ TIMES (MORE|LESS)|(ANOTHER KIND OF UNIT|THE SAME FIGURE IN ANOTHER UNIT)[^;)]*/g;

function nestedItems(lines: readonly SectionLine[]): string {
  const rows = lines.map(({ text, under }) => `<li>${told(text)}${under.length > 0 ? items(under) : ""}</li>`);
  return `<ul>${rows.join("")}</ul>`;
}

function items(lines: readonly string[]): string {
  return `<ul>${lines.map((line) => `<li>${told(line)}</li>`).join("")}</ul>`;
}

function told(line: string): string {
  return escaped(line).replace(alarms, "<strong>$&</strong>");
}

function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}

const style = `:root{color-scheme:light dark}
body{font:1rem/1.5 system-ui,sans-serif;margin:0;background:Canvas;color:CanvasText}
main{max-width:60rem;margin:0 auto;padding:1rem}
section{border-left:.35rem solid #888;padding:.2rem 1rem;margin:1.2rem 0}
section.verdict{border-color:#b00020}section.consequence{border-color:#a86200}section.fact{border-color:#3a6ea5}
h1{font-size:1.5rem}h2{font-size:1.15rem;margin:.3rem 0}h3{font-size:1rem;margin:.6rem 0 .1rem}
ul{margin:.1rem 0;padding-left:1.2rem}li{overflow-wrap:anywhere}
.level{font-size:.8rem;font-weight:normal;border:1px solid;border-radius:.3rem;padding:0 .4rem}
.alarm{border:2px solid;padding:.5rem 1rem;font-weight:bold}
footer{border-top:1px solid;margin-top:2rem;padding-top:.5rem;font-size:.9rem}
@media print{section{break-inside:avoid}}`;
