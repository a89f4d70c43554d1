/** The name by which TLS says what is wrong with a certificate; undefined where a code says something else. */
export function certificateCode(code: string | undefined): string | undefined {
  return code !== undefined && /CERT|SELF_SIGNED|UNABLE_TO_|CHAIN|CRL|INVALID_CA/.test(code)
    ? code
    : undefined;
}
