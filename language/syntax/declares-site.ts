/** Whether a text declares a site at the start of a line, and so makes its folder the root of a library. */
const lineEnds = "\n\r\u2028\u2029";
const byteOrderMark = "\uFEFF";

/** As /^\uFEFF?site\b/m, but by a search for the word: thousands of files are asked at each start, and few hold it. */
export function declaresSite(text: string): boolean {
  for (let at = text.indexOf("site"); at >= 0; at = text.indexOf("site", at + 4)) {
    if (/\w/.test(text.charAt(at + 4))) continue;
    const start = text.charAt(at - 1) === byteOrderMark ? at - 1 : at;
    if (start === 0 || lineEnds.includes(text.charAt(start - 1))) return true;
  }
  return false;
}
