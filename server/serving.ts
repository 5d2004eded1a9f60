/** All that a request may use. One object for the life of a session. */
import type { CancellationToken, Connection } from "vscode-languageserver";
import type { LastGood } from "../language/answers/last-good.ts";
import type { Approvals } from "./approvals.ts";
import type { ClientAbilities } from "./client-abilities.ts";
import type { Host } from "./host.ts";
import type { Publisher } from "./publisher.ts";
import type { Session } from "./session.ts";
import type { Settings } from "./settings.ts";

export interface Serving {
  readonly connection: Connection;
  readonly host: Host;
  readonly session: Session;
  readonly publisher: Publisher;
  readonly approvals: Approvals;
  /** Open recipes as they last were whole, for answers while a line is broken. */
  readonly lastGood: LastGood;
  /** Before the handshake nothing is answered, and after `shutdown` nothing is answered or sent. */
  stage: "new" | "open" | "shut";
  client: ClientAbilities;
  settings: Settings;
  /** Begins the session, once. `initialized` does so, and whatever an editor sends that does not say it. */
  begin(by: string): void;
  /** Resolves when the files of the workspace are read; requests wait for it, so that no answer speaks of half a library. */
  ready: Promise<void>;
  /** How long requests took, milliseconds, by method: the last, the longest, and how many. */
  readonly timings: Map<string, { last: number; longest: number; count: number }>;
}

/** One kind of request: parameters in, answer out. Long ones look at the token between files. */
export type Answer<P, R> = (serving: Serving, params: P, token: CancellationToken) => R | Promise<R>;
