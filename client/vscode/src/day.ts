/** What is wrong with a day as typed; undefined for a real day and for nothing. */
export function dayFault(text: string): string | undefined {
  const day = text.trim();
  if (day === "") return undefined;
  if (!/^\d{4}-\d{2}-\d{2}$/.test(day)) return "Write the day as YYYY-MM-DD, for example 2026-11-25.";
  const time = Date.parse(`${day}T00:00:00Z`);
  const real = !Number.isNaN(time) && new Date(time).toISOString().startsWith(day);
  return real ? undefined : `There is no day ${day} in the calendar.`;
}
