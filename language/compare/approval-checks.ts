/** What `misce explain` says of the findings about approvals. They look at records beside the recipe, not at its text. */
import type { Family, Severity } from "../../shared/finding.ts";

interface ApprovalCheck {
  name: string;
  family: Family;
  severity: Severity;
  title: string;
  why: string;
  source: string;
  bad: string;
  good: string;
}

const source = "common practice: a master record is approved before use, and again after each change";

export const approvalChecks = [
  {
    name: "approval-stale",
    family: "record",
    severity: "warning",
    title: "The recipe was changed after it was approved",
    why: "An approval stands for the meaning that was read; whatever changed since, nobody has reviewed.",
    source,
    bad: "",
    good: "",
  },
  {
    name: "approval-missing",
    family: "record",
    severity: "warning",
    title: "The site asks for an approval, and none is on record",
    why: "A recipe that nobody has reviewed must not look like one that was.",
    source,
    bad: "",
    good: "",
  },
  {
    name: "approval-later",
    family: "record",
    severity: "warning",
    title: "An approval bears a later day than the one that is judged",
    why: "On a day before it was given there was no such approval; a day that has not come is a slip in the record.",
    source,
    bad: "",
    good: "",
  },
  {
    name: "approval-not-readable",
    family: "record",
    severity: "warning",
    title: "The record of approvals cannot be read",
    why: "What cannot be read approves nothing.",
    source,
    bad: "",
    good: "",
  },
] as const satisfies readonly ApprovalCheck[];
