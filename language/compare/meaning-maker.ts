/** Comparison, fingerprints, approvals and merging for whoever holds a library only by what the command line knows of it. */
import type { Comparison } from "../../shared/comparison.ts";
import type { Finding } from "../../shared/finding.ts";
import { Library } from "../library.ts";
import type { Recipe } from "../model/declaration.ts";
import { approvalChecks } from "./approval-checks.ts";
import {
  type Approval,
  type ApprovalRecord,
  approvalFileOf,
  approvalFindings,
  approvalOf,
  laterApprovals,
  type RecordText,
  readApprovals,
  standingApprovals,
  withApproval,
} from "./approvals.ts";
import { aboutFiles, Comparing } from "./compare.ts";
import { type ComparisonForm, comparisonForms, comparisonReport } from "./comparison-reports.ts";
import { fingerprintOf, isFingerprintOf } from "./fingerprint.ts";
import { meaningText } from "./meaning-text.ts";
import { type Merged, mergeTexts, type NotMergeable } from "./merge-texts.ts";
import { changesOfRecipe } from "./recipe-changes.ts";

function whole(library: object): Library {
  if (library instanceof Library) return library;
  throw new TypeError("Only a library that this program opened itself can be compared.");
}

/** The one recipe of this name; a plain sentence where there is none or more than one. */
function recipeOf(library: Library, name: string): Recipe | string {
  const found = library.declared(name).filter((d): d is Recipe => d.kind === "recipe");
  if (found.length > 1) return `${found.length} recipes are called ${name}. Give one of them another name first.`;
  return found[0] ?? `No recipe is called "${name}" here.`;
}

export const meaningMaker = {
  checks: approvalChecks,
  forms: comparisonForms,

  comparing: (before: object, after: object): Comparing => new Comparing(whole(before), whole(after)),

  aboutFiles,

  report: (comparison: Comparison, form: ComparisonForm): string => comparisonReport(comparison, form),

  /** Recipes of the library with the file each stands in. */
  recipes(library: object): { name: string; file: string }[] {
    const own = whole(library);
    return own.headsOf("recipe").flatMap(({ name, chunk }) => {
      const file = own.spanOf({ chunk, start: 0, end: 0 })?.file;
      return file === undefined ? [] : [{ name: name.name, file }];
    });
  },

  /** `misce-meaning-3:…`, or why there is none. */
  fingerprint(library: object, name: string): { fingerprint: string } | { fault: string } {
    const recipe = recipeOf(whole(library), name);
    return typeof recipe === "string" ? { fault: recipe } : { fingerprint: fingerprintOf(recipe, whole(library)) };
  },

  /** Whether a fingerprint, under the version that it names, is that of the recipe's meaning now. */
  isFingerprint(library: object, name: string, fingerprint: string): boolean {
    const recipe = recipeOf(whole(library), name);
    return typeof recipe !== "string" && isFingerprintOf(fingerprint, recipe, whole(library));
  },

  approvalFile: approvalFileOf,
  readApprovals,
  standingApprovals,
  laterApprovals,

  /** The record with one more approval, as the text of its file. */
  approve(
    library: object,
    name: string,
    given: { role: string; date: string; revision: string | null },
    record: ApprovalRecord | undefined,
  ): { text: string; approval: Approval } | { fault: string } {
    const own = whole(library);
    const recipe = recipeOf(own, name);
    if (typeof recipe === "string") return { fault: recipe };
    const { roles } = own.surroundings().policy;
    if (!roles.includes(given.role)) {
      return { fault: `"${given.role}" is no role of this site. Its roles are ${roles.join(", ")}.` };
    }
    const approval = approvalOf(recipe, own, given);
    return { approval, text: `${JSON.stringify(withApproval(record, name, approval), null, 2)}\n` };
  },

  /** Findings about the approvals of one recipe. `before`: the library as it was approved, where history has it. */
  approvalFindings(
    library: object,
    name: string,
    file: string,
    text: RecordText | undefined,
    libraryApproved: (approval: Approval) => object | undefined,
  ): Finding[] {
    const own = whole(library);
    const recipe = recipeOf(own, name);
    if (typeof recipe === "string") return []; // told by the checks of structure
    const read = text === undefined ? undefined : readApprovals(text);
    const fault = read && "fault" in read ? read.fault : undefined;
    const changesSince = (approval: Approval) => {
      const before = libraryApproved(approval);
      return before ? changesOfRecipe(whole(before), own, name) : undefined;
    };
    const record = read && !("fault" in read) ? read : undefined;
    return approvalFindings({ recipe, file, record, fault, changesSince }, own);
  },

  meaningText,
  merge: (base: string, ours: string, theirs: string): Merged | NotMergeable => mergeTexts(base, ours, theirs),
};
