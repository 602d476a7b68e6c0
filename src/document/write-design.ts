import { type DesignDocument, designSchema } from './design.ts';

/**
 * The text of a design file: JSON with two spaces, keys in the schema's order, a newline at the end. Reading it back gives
 * an equal document, bit for bit. Throws on a value that is not a design: that is a bug of the caller.
 */
export const writeDesign = (document: DesignDocument): string =>
  `${JSON.stringify(designSchema.parse(document), null, 2)}\n`;
