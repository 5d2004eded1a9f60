/** Around every request: waiting for the workspace, cancellation, timing, and one request's fault never ending the session. */
import { type CancellationToken, ErrorCodes, LSPErrorCodes, ResponseError } from "vscode-languageserver";
import type { Answer, Serving } from "./serving.ts";
import { unfit } from "./unfit-params.ts";

/** Said to the person who asked: shown by the editor as it stands. */
export class Refusal extends Error {}

export function watched<P, R>(serving: Serving, method: string, answer: Answer<P, R>) {
  return async (params: P, token: CancellationToken): Promise<R | ResponseError<void>> => {
    if (serving.stage === "new")
      return new ResponseError(ErrorCodes.ServerNotInitialized, `${method} came before initialize.`);
    if (serving.stage === "shut") return new ResponseError(ErrorCodes.InvalidRequest, `${method} came after shutdown.`);
    const lacking = unfit(method, token === undefined ? undefined : params); // without parameters the token comes first
    if (lacking) return new ResponseError(ErrorCodes.InvalidParams, lacking);
    serving.begin(method);
    await serving.ready;
    if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, "Cancelled.");
    const began = performance.now();
    try {
      const result = await answer(serving, params, token);
      if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, "Cancelled.");
      return result;
    } catch (error) {
      if (error instanceof Refusal) return new ResponseError(LSPErrorCodes.RequestFailed, error.message);
      serving.connection.console.error(
        `misce: ${method} failed: ${error instanceof Error ? error.stack : String(error)}`,
      );
      return new ResponseError(
        LSPErrorCodes.RequestFailed,
        `A fault of this program kept ${method} from being answered.`,
      );
    } finally {
      note(serving, method, performance.now() - began);
    }
  };
}

function note(serving: Serving, method: string, took: number): void {
  const known = serving.timings.get(method) ?? { last: 0, longest: 0, count: 0 };
  serving.timings.set(method, { last: took, longest: Math.max(known.longest, took), count: known.count + 1 });
}
