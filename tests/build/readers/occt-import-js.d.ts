declare module 'occt-import-js' {
  const start: () => Promise<{
    ReadStepFile(
      content: Uint8Array,
      settings: object,
    ): {
      success: boolean;
      meshes: {
        attributes: { position: { array: number[] } };
        index: { array: number[] };
        brep_faces: unknown[];
      }[];
    };
  }>;
  export default start;
}
