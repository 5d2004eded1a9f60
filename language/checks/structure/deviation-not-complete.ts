import { isDateFault, parseDate } from "../../model/dates.ts";
import { libraryCheck } from "../check.ts";
import { example } from "../example.ts";
import { oneOf } from "../showing.ts";
import { isNotKnown } from "../unread-facts.ts";

export const deviationNotComplete = libraryCheck({
  name: "deviation-not-complete",
  family: "structure",
  severity: "error",
  title: "A deviation without reason, role or end date, or with an unknown role",
  why: "An exception that nobody answers for, or that never ends, is no exception.",
  source:
    "Pharmacy non-sterile compounding in Canada, chapter 15 Compounding records (open textbook, undated): deviations from the master record",
  rows: ["record-elements napra-cr-11"],
  bad: example(["  preparation bag {", '  deviation filter-shared on mag\n    because "label"\n\n  preparation bag {']),
  good: example(),
  *find({ declaration, policy, lookup }) {
    if (declaration.kind !== "recipe") return;
    for (const deviation of declaration.deviations) {
      const lacking: string[] = [];
      if (!deviation.because?.text.trim()) lacking.push("`because` with a reason");
      if (!deviation.by) lacking.push("`by` with a role");
      else if (!policy.roles.includes(deviation.by.name) && !isNotKnown(lookup.site()?.facts, "role"))
        lacking.push(`a role of the site (${oneOf(policy.roles)}) instead of ${deviation.by.name}`);
      const until = deviation.until && parseDate(deviation.until.text);
      if (!until || isDateFault(until)) lacking.push("`until` with a day such as 2027-03-31");
      if (lacking.length > 0) yield { at: deviation.check, lacking };
    }
  },
  say: ({ lacking }) => ({ text: `This deviation silences nothing yet: it needs ${lacking.join(", ")}.` }),
});
