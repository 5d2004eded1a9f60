/** The rows of a CSV text with their exact places, and which column stands where. */
import Papa from "papaparse";

export interface Row {
  cells: string[];
  start: number;
  end: number;
  line: number;
  lastLine: number;
  quoteFault: boolean;
}

export const columns = ["stock", "lot", "expires", "gtin", "barcode"] as const;
export type Column = (typeof columns)[number];
export type Header = Map<Column, number>;

interface CsvStep {
  /** The cells of one row. */
  data: string[];
  errors: { type: string }[];
  meta: { cursor: number };
}

interface CsvParser {
  abort(): void;
}

const parseCsv: (
  text: string,
  config: { delimiter: string; newline: string; step: (row: CsvStep, parser: CsvParser) => void },
) => void = Papa.parse as never;

/** The rows cut by whichever of comma, semicolon and tab finds most of the column names in the first row. */
export function readTable(csvText: string): { rows: Row[]; header: Header } {
  let best: { delimiter: string; header: Header } | undefined;
  for (const delimiter of [",", ";", "\t"]) {
    const header = headerOf(rowsOf(csvText, delimiter, 1)[0]);
    if (!best || header.size > best.header.size) best = { delimiter, header };
  }
  return { rows: rowsOf(csvText, best!.delimiter), header: best!.header };
}

/**
 * Rows with their exact places; empty lines are left out. Line ends are brought to one sign each without changing any
 * length (the library knows one kind a file): a lone CR becomes LF, and the CR of CRLF is trimmed off the last cell.
 *
 * @param most ends after so many rows; the first tells by what the cells are parted
 */
function rowsOf(csvText: string, delimiter: string, most = Number.POSITIVE_INFINITY): Row[] {
  const from = csvText.startsWith("\uFEFF") ? 1 : 0;
  const text = csvText.slice(from).replaceAll(/\r(?!\n)/g, "\n");
  const rows: Row[] = [];
  let start = 0;
  let line = 1;
  const step = ({ data, errors, meta }: CsvStep, parser: CsvParser) => {
    const raw = text.slice(start, meta.cursor);
    const end = start + raw.replace(/\r?\n$/, "").length;
    const lastLine = line + text.slice(start, end).split("\n").length - 1;
    const cells = data.map((cell) => cell.trim());
    const quoteFault = errors.some((e) => e.type === "Quotes");
    if (cells.some((cell) => cell !== ""))
      rows.push({ cells, start: start + from, end: end + from, line, lastLine, quoteFault });
    line = lastLine + 1;
    start = meta.cursor;
    if (rows.length >= most) parser.abort();
  };
  // The library closes a quoted last cell only before a line end or the very end, so the text always ends with a line end.
  if (text !== "") parseCsv(/\n$/.test(text) ? text : `${text}\n`, { delimiter, newline: "\n", step });
  return rows;
}

function headerOf(row: Row | undefined): Header {
  const header: Header = new Map();
  for (const column of columns) {
    const at = row?.cells.findIndex((cell) => cell.toLowerCase() === column) ?? -1;
    if (at >= 0) header.set(column, at);
  }
  return header;
}
