/**
 * The handshake of editors that leave out what the protocol requires of it: what is missing is handed on as "none", since the library
 * under the connection reads it before anything of this server does.
 */
import { type ConnectionOptions, Message, type RequestMessage } from "vscode-languageserver";

export const lenientHandshake: ConnectionOptions = {
  messageStrategy: {
    handleMessage(message, next) {
      return next(Message.isRequest(message) && message.method === "initialize" ? completed(message) : message);
    },
  },
};

function completed(message: RequestMessage): RequestMessage {
  const params = (Array.isArray(message.params) ? {} : message.params) as { capabilities?: unknown } | null | undefined;
  const { capabilities } = params ?? {};
  const known = capabilities !== null && typeof capabilities === "object" ? capabilities : {};
  return { ...message, params: { processId: null, rootUri: null, ...params, capabilities: known } };
}
