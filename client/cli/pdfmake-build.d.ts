/** The one-file builds of pdfmake, which bring no types of their own. Only what is used here. */
declare module "pdfmake/build/pdfmake.js" {
  const pdfMake: {
    createPdf(
      document: unknown,
      layouts: unknown,
      fonts: Record<string, Record<string, string>>,
      files: Record<string, string>,
    ): { getStream(): PdfStream };
  };
  /** The document laid out; its bytes come once it is ended. */
  interface PdfStream {
    on(event: "data", taken: (bytes: Uint8Array) => void): void;
    on(event: "end", done: () => void): void;
    on(event: "error", failed: (error: unknown) => void): void;
    end(): void;
  }
  export default pdfMake;
}
declare module "pdfmake/build/vfs_fonts.js" {
  /** File name to base64. */
  const files: Record<string, string>;
  export default files;
}
