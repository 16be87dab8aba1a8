/* What we use of pdfkit. Its published types speak of Node's streams and buffers, which `src` does not know. */

declare module "pdfkit" {
  /** An object of the file. What is written to it becomes its stream. */
  export interface PdfObject {
    write(content: string): void;
    end(content?: string): void;
  }

  export interface PdfTextOptions {
    readonly lineBreak: false;
    readonly baseline: "alphabetic";
    /** Per cent. */
    readonly horizontalScaling?: number;
  }

  export default class PDFDocument {
    constructor(options: {
      readonly autoFirstPage: false;
      readonly font: null;
      readonly margin: 0;
      readonly pdfVersion: "1.7";
      readonly displayTitle: true;
      readonly info: Readonly<Record<string, string>>;
    });
    /** The document's information; the constructor adds the time of day to it. */
    readonly info: Record<string, unknown>;
    readonly page: { readonly xobjects: Record<string, PdfObject> };
    /** The file's identifier, made from the time of day unless it is set anew. */
    _id: Uint8Array;
    addPage(options: { readonly size: readonly [width: number, height: number]; readonly margin: 0 }): this;
    registerFont(name: string, bytes: Uint8Array): this;
    /** Chooses a registered font. It is read when it is first chosen. */
    font(name: string): this;
    fontSize(size: number): this;
    widthOfString(text: string): number;
    text(text: string, x: number, y: number, options: PdfTextOptions): this;
    markContent(tag: "Span", options: { readonly actual: string }): this;
    endMarkedContent(): this;
    /** Adds operators to the page. */
    addContent(operators: string): this;
    ref(dictionary: Readonly<Record<string, unknown>>): PdfObject;
    on(event: "data", take: (bytes: Uint8Array) => void): this;
    on(event: "end", take: () => void): this;
    on(event: "error", take: (error: unknown) => void): this;
    /** Writes the metadata stream; called by `end`. */
    protected endMetadata(): void;
    end(): void;
  }
}
