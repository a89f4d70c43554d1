import {
  type Message,
  type OPCUACertificateManager,
  type OPCUAServer,
  type ServerSecureChannelLayer,
  ServiceFault,
  StatusCodes,
} from 'node-opcua';
import type { Underway } from '../../faults/underway.ts';

interface InnerServer {
  _on_CreateSessionRequest(message: Message, channel: ServerSecureChannelLayer): unknown;
}
interface InnerCertificates {
  checkCertificate(...from: unknown[]): unknown;
}

/**
 * Trusts no client's certificate for a while: no secure channel is opened, and no session without security either, for
 * which a client shows its certificate as well. Of the reason it says as little as the standard wants said.
 */
export function refuseClients(
  server: OPCUAServer,
  certificates: OPCUACertificateManager,
  underway: Underway,
): void {
  const innerServer = server as unknown as InnerServer;
  const create = innerServer._on_CreateSessionRequest.bind(server);
  innerServer._on_CreateSessionRequest = (message, channel) => {
    if (!underway.find('refused')) return create(message, channel);
    const fault = new ServiceFault({
      responseHeader: { serviceResult: StatusCodes.BadSecurityChecksFailed },
    });
    return channel.send_response('MSG', fault, message);
  };
  const innerCertificates = certificates as unknown as InnerCertificates;
  const check = innerCertificates.checkCertificate.bind(certificates);
  innerCertificates.checkCertificate = (...from) =>
    underway.find('refused') ? Promise.resolve(StatusCodes.BadCertificateUntrusted) : check(...from);
}
