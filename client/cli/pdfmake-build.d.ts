/** The one-file builds of pdfmake, which bring no types of their own. Only what is used here. */
declare module "pdfmake/build/pdfmake.js" {
  const pdfMake: {
    createPdf(
      document: unknown,
      layouts: unknown,
      fonts: Record<string, Record<string, string>>,
      files: Record<string, string>,
    ): { getBuffer(done: (bytes: Uint8Array) => void): void };
  };
  export default pdfMake;
}
declare module "pdfmake/build/vfs_fonts.js" {
  /** File name to base64. */
  const files: Record<string, string>;
  export default files;
}
