// @ts-check

/**
 * What a page of Ninefold may do: load from its own origin, nothing else; turn strings into scripts only through the two named
 * policies (Lit's own, and components/shared/trusted-urls.ts). The build writes it into the page, so that it holds wherever the files are
 * hosted; our own server sends it as a header as well.
 */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "require-trusted-types-for 'script'",
  "trusted-types lit-html ninefold",
].join("; ");

/** Sent with every file. `frame-ancestors` works in a header only. */
export const SECURITY_HEADERS = {
  "Content-Security-Policy": `${CONTENT_SECURITY_POLICY}; frame-ancestors 'none'`,
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Referrer-Policy": "no-referrer",
  "X-Content-Type-Options": "nosniff",
};
