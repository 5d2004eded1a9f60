import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { bySlip } from "../same-slip.ts";
import { soDo } from "../showing.ts";
import { mayHaveDone, partsMoved } from "../unread-steps.ts";
import { dilutionExample } from "./intermediates.ts";

export const joinedToAnother = recipeCheck({
  name: "joined-to-another",
  family: "technique",
  severity: "error",
  title: "Liquid moves between two things that the connector does not join",
  why: "The step cannot be done as the syringes stand; done at the end that is joined, another container gets it.",
  source: "common practice",
  bad: dilutionExample(["    connect working to syringe using join", "    connect working to saline using join"]),
  good: dilutionExample(),
  happening: "joined-to-another",
  // One wrong name in `connect` is one slip, however many steps go by that way.
  find: ({ run }) =>
    bySlip(
      happened(run, "joined-to-another").filter(({ step }) => !mayHaveDone(partsMoved, run, step)),
      (one, other) => one.data.part === other.data.part && one.data.joined === other.data.joined,
    ).map(({ first: { spot, step, data }, more }) => ({ at: spot, step, more, ...data })),
  say: ({ step, more, part, of, joined, other }) => ({
    text: `Step ${step.number} moves liquid between ${thingName(of)} and ${thingName(other)}, and ${thingName(part)} joins ${thingName(of)} to ${joined === of ? "itself" : thingName(joined)}${soDo(more)}. Correct the step that connects them, or take ${part.name} off before and \`connect ${of.name} to ${other.name} using …\`.`,
  }),
});
