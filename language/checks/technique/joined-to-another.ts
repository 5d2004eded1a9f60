import type { HappeningData } from "../../bench/happenings.ts";
import { happened } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import { thingName } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { soDo } from "../showing.ts";
import { mayHaveDone, partsMoved } from "../unread-steps.ts";
import { dilutionExample } from "./intermediates.ts";

type Slip = HappeningData["joined-to-another"] & { at: Spot; steps: StepRun[] };

export const joinedToAnother = recipeCheck<Slip>({
  name: "joined-to-another",
  family: "technique",
  severity: "error",
  title: "Liquid moves between two things that the connector does not join",
  why: "The step cannot be done as the syringes stand; done at the end that is joined, another container gets it.",
  source: "common practice",
  bad: dilutionExample(["    connect working to syringe using join", "    connect working to saline using join"]),
  good: dilutionExample(),
  happening: "joined-to-another",
  find({ run }) {
    // One wrong name in `connect` is one slip, however many steps go by that way.
    const slips: Slip[] = [];
    for (const { spot, step, data } of happened(run, "joined-to-another")) {
      if (mayHaveDone(partsMoved, run, step)) continue;
      const same = slips.find(({ part, joined }) => part === data.part && joined === data.joined);
      if (!same) slips.push({ at: spot, steps: [step], ...data });
      else if (!same.steps.includes(step)) same.steps.push(step);
    }
    return slips;
  },
  say: ({ steps: [step, ...more], part, of, joined, other }) => ({
    text: `Step ${step!.number} moves liquid between ${thingName(of)} and ${thingName(other)}, and ${thingName(part)} joins ${thingName(of)} to ${joined === of ? "itself" : thingName(joined)}${soDo(more)}. Correct the step that connects them, or take ${part.name} off before and \`connect ${of.name} to ${other.name} using …\`.`,
  }),
});
