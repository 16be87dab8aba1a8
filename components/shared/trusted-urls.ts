/**
 * The page's policy (`trusted-types ninefold`) lets a script address be used only when it comes from here. Browsers without Trusted
 * Types take the plain string. A policy's name can be taken once, so there is one, made on first use.
 */
let policy: TrustedTypesPolicy | undefined;

interface TrustedTypesPolicy {
  createScriptURL(address: string): string;
}

interface TrustedTypesFactory {
  createPolicy(name: string, rules: { createScriptURL(address: string): string }): TrustedTypesPolicy;
}

/**
 * An address that may be given to `new Worker` or `serviceWorker.register`.
 *
 * @throws RangeError if it leads to another origin
 */
export function trustedScriptUrl(address: string): string {
  policy ??= newPolicy();
  return policy.createScriptURL(address);
}

function newPolicy(): TrustedTypesPolicy {
  const rules = { createScriptURL: ownOrigin };
  const factory = (globalThis as { trustedTypes?: TrustedTypesFactory }).trustedTypes;
  return factory?.createPolicy("ninefold", rules) ?? rules;
}

function ownOrigin(address: string): string {
  const url = new URL(address, location.href);
  if (url.origin !== location.origin) throw new RangeError(`a script from another origin: ${url.origin}`);
  return url.href;
}
