/**
 * The handshake of editors that leave out what the protocol requires of it: what is missing is handed on as "none", since the library
 * under the connection reads it before anything of this server does.
 */
import { type ConnectionOptions, Message, type RequestMessage } from "vscode-languageserver";

/**
 * @param isSeen whether a process is seen from here; left out where there are none. The library ends the server when the editor's
 *   process is not there, which an editor beyond the walls of a container never is. The end of its messages still ends the server.
 */
export function lenientHandshake(isSeen: (process: number) => boolean = () => true): ConnectionOptions {
  return {
    messageStrategy: {
      handleMessage(message, next) {
        return next(
          Message.isRequest(message) && message.method === "initialize" ? completed(message, isSeen) : message,
        );
      },
    },
  };
}

function completed(message: RequestMessage, isSeen: (process: number) => boolean): RequestMessage {
  const given = (Array.isArray(message.params) ? {} : message.params) as Record<string, unknown> | null | undefined;
  const params: Record<string, unknown> = { processId: null, rootUri: null, ...given };
  if (params.capabilities === null || typeof params.capabilities !== "object") params.capabilities = {};
  if (typeof params.processId === "number" && !isSeen(params.processId)) params.processId = null;
  return { ...message, params };
}
