import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { meetings, place, verdict } from "./meetings.ts";

export const diluentIncompatible = recipeCheck({
  name: "diluent-incompatible",
  family: "stability",
  severity: "error",
  title: "A drug meets a fluid that it must not be mixed with",
  why: "It falls out, breaks down or loses its effect, not always in a way that can be seen.",
  source:
    "Amiodarone preparation for intravenous infusion (secondary page quoting the FDA label, undated), as one instance; common practice",
  rows: ["stability-examples amiodarone"],
  bad: example(["  compatible     sodium-chloride-0.9\n", "  incompatible   sodium-chloride-0.9\n"]),
  good: example(),
  *find({ runs }) {
    for (const run of runs) {
      for (const meeting of meetings(run)) {
        if (!meeting.otherIsDrug && verdict(meeting, run) === "incompatible") yield { at: meeting.at, meeting };
      }
    }
  },
  say: ({ meeting }) => {
    const { drug, other } = meeting;
    const fact = drug.facts.all("incompatible").find((f) => f.slots.what.name === other);
    return {
      text: `${drug.name.name} meets ${other} ${place(meeting)}; its monograph says incompatible. Use a fluid that it may be mixed with.`,
      related: fact ? [{ at: { start: fact.start, end: fact.end, chunk: drug.chunk }, text: "said here" }] : [],
    };
  },
});
