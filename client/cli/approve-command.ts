/** `misce approve` and `misce fingerprint`: bind the approval of a recipe to what it means. */
import { existsSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { nearNames } from "../../language/model/near.ts";
import { safetyNotice } from "../../shared/report.ts";
import { readRecord } from "./approval-records.ts";
import { dayOnClock, requireDay, today } from "./as-of.ts";
import { CannotRun, reasonNotWritten } from "./cannot-run.ts";
import { meaningMakerOf } from "./compare-command.ts";
import type { Engine, MeaningMaker, OpenLibrary } from "./engine-contract.ts";
import { commitOf } from "./git-trees.ts";
import { librariesOf, requireWhole } from "./library-groups.ts";
import { findFiles } from "./source-files.ts";
import { SourceStore } from "./source-store.ts";
import type { Surroundings } from "./surroundings.ts";
import { writeWhole } from "./write-whole.ts";

export interface ApproveFlags {
  role?: string;
  asOf?: string;
  library?: string;
  recipe?: string;
  despiteErrors?: boolean;
}

interface Chosen {
  library: OpenLibrary;
  name: string;
  file: string;
  /** Absolute. */
  path: string;
}

/** Writes the record beside the recipe. @returns 0 written, 1 not written because errors stand */
export async function approveCommand(
  what: string,
  flags: ApproveFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<0 | 1> {
  if (flags.role === undefined)
    throw new CannotRun("Say in which role you approve, with --role, such as --role pharmacist.");
  const maker = await meaningMakerOf(engine);
  const date = flags.asOf === undefined ? today(surroundings.now()) : requireDay(flags.asOf);
  const chosen = await chosenRecipe(what, flags, maker, engine, surroundings, date);
  const errors = chosen.library
    .findings(chosen.file)
    .filter((f) => f.severity === "error" && !f.silenced && f.subject === `recipe ${chosen.name}`);
  if (errors.length > 0) {
    surroundings.stderr.write(
      `misce: ${chosen.name} is not approved, because ${errors.length === 1 ? "an error stands" : `${errors.length} errors stand`}:\n`,
    );
    for (const { name, message } of errors) surroundings.stderr.write(`  ${name}: ${message}\n`);
    return 1;
  }
  const path = join(dirname(chosen.path), maker.approvalFile(chosen.name));
  const before = existsSync(path) ? maker.readApprovals(readRecord(path)) : undefined;
  if (before && "fault" in before) throw new CannotRun(`"${path}": ${before.fault}`);
  const revision = commitOf(dirname(chosen.path), "HEAD") ?? null;
  const made = maker.approve(chosen.library, chosen.name, { role: flags.role, date, revision }, before);
  if ("fault" in made) throw new CannotRun(made.fault);
  writeRecord(path, made.text);
  const now = dayOnClock(surroundings.now());
  if (date > now)
    surroundings.stderr.write(
      `misce: ${date} has not come yet; today is ${now}. Until that day the approval does not count.\n`,
    );
  const store = new SourceStore(surroundings.cwd);
  surroundings.stdout.write(
    `Approved by ${flags.role} on ${date}: ${chosen.name}\n${made.approval.fingerprint}\nWritten to ${store.nameOf(path)}; commit it together with the recipe.\n${safetyNotice}\n`,
  );
  return 0;
}

export async function fingerprintCommand(
  what: string,
  flags: ApproveFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<0> {
  const maker = await meaningMakerOf(engine);
  const chosen = await chosenRecipe(what, flags, maker, engine, surroundings, today(surroundings.now()));
  const made = maker.fingerprint(chosen.library, chosen.name);
  if ("fault" in made) throw new CannotRun(made.fault);
  surroundings.stdout.write(`${made.fingerprint}\n`);
  return 0;
}

/** A recipe by its name, or by its file. A library that cannot be read whole has no meaning to approve. */
async function chosenRecipe(
  what: string,
  flags: ApproveFlags,
  maker: MeaningMaker,
  engine: Engine,
  { cwd }: Surroundings,
  asOf: string,
): Promise<Chosen> {
  const isFile = /\.misce$/i.test(what) || existsSync(resolve(cwd, what));
  const found = findFiles([isFile ? what : (flags.library ?? ".")], cwd);
  const store = new SourceStore(cwd);
  const opened = librariesOf(engine, store, asOf, found.recipes, []);
  requireWhole(found, opened, store);
  const all: Chosen[] = [];
  for (const group of opened.groups) {
    const library = await group.library();
    const asked = new Map(group.asked.map((path) => [store.nameOf(path), path]));
    for (const { name, file } of maker.recipes(library)) {
      const path = asked.get(file);
      if (path !== undefined) all.push({ library, name, file, path });
    }
  }
  const wanted = isFile ? flags.recipe : what;
  const named = wanted === undefined ? all : all.filter((r) => r.name === wanted);
  if (named.length === 1) return named[0]!;
  const names = all.map((r) => r.name);
  if (named.length > 1) {
    throw new CannotRun(
      wanted === undefined
        ? `"${what}" holds ${all.length} recipes: ${names.join(", ")}. Say which with --recipe NAME.`
        : `${named.length} recipes are called ${wanted}: in ${named
            .map((r) => r.file)
            .slice(0, 3)
            .join(", ")}. Name the file instead.`,
    );
  }
  const near = nearNames(wanted ?? "", names);
  const hint = near.length > 0 ? ` Did you mean ${near.join(" or ")}?` : "";
  throw new CannotRun(
    wanted === undefined ? `"${what}" holds no recipe.` : `No recipe is called "${wanted}" here.${hint}`,
  );
}

function writeRecord(path: string, text: string): void {
  try {
    writeWhole(path, text);
  } catch (error) {
    throw new CannotRun(`The approval cannot be written to "${path}": ${reasonNotWritten(error)}.`);
  }
}
