import { vesselKey } from "../../bench/vessels.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { isTold, isWithdrawalUnknown } from "../consequences.ts";
import { example } from "../example.ts";
import { ml, percent } from "../showing.ts";
import { slipsOf } from "../slips.ts";
import { mayHaveDone } from "../unread-steps.ts";

export const additiveOverShare = recipeCheck({
  name: "additive-over-share",
  family: "volumes",
  severity: "warning",
  title: "A large additive volume added without withdrawing first",
  why: "The finished liquid is weaker than the order reads.",
  source: "What is the 10 percent rule for IV bags? (general web article; quality low; the site sets the share)",
  rows: ["technique-rules additive-over-10pc", "limits add-10pc"],
  bad: example(["  expiry-ahead   30 days", "  expiry-ahead   30 days\n  additive-share up to 5 %"]),
  good: example(),
  *find(context) {
    const { recipe, run, policy } = context;
    // An order that withdraws first is told as such where nothing is withdrawn.
    const method = recipe.order?.one("method")?.slots.method.choice;
    if (!run.unknown && method?.startsWith("withdraw-first") && isTold("method-not-followed", context)) return;
    if (isWithdrawalUnknown(run) || mayHaveDone(["withdraw"], run)) return;
    for (const vessel of run.finals) {
      const fill = vessel.stock?.facts.one("fill")?.slots.fill.quantity;
      if (!fill || vessel.stock?.facts.one("fluid") === undefined || run.withdrawn.has(vesselKey(vessel))) continue;
      const label = inBase(fill);
      const into = run.steps.flatMap((s) =>
        s.movements.filter((m) => m.to === vessel && m.how === "push").map((m) => ({ s, m })),
      );
      const added = into.reduce((sum, { m }) => sum.plus(m.moved), Exact.zero);
      const last = into.at(-1);
      if (last && added.isAbove(label.times(policy.additiveShare))) {
        if (slipsOf(run).changesVolumeOf(vessel)) continue;
        yield { at: last.s.step, vessel, added, label, most: policy.additiveShare };
      }
    }
  },
  say: ({ vessel, added, label, most }) => ({
    text: `Adds ${ml(added)} to ${vessel.name} of ${ml(label)}, ${percent(added.over(label))} of it; above ${percent(most)} the same volume is withdrawn first. Use the method withdraw-first, or a larger bag.`,
  }),
});
