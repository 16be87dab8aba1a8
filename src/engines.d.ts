/* The few names that every JavaScript engine has and the language's own library does not declare. `src` may use no others. */

declare class TextEncoder {
  encode(text: string): Uint8Array<ArrayBuffer>;
}

declare class TextDecoder {
  constructor(label?: string, options?: { fatal?: boolean });
  decode(bytes: Uint8Array): string;
}
