import { inputsOf } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { floorsFromDocument } from '../../document/floors.ts';
import type { FieldSettings } from '../../reach/field/field-settings.ts';
import type { Floor } from '../../terms/quantities.ts';

/** What the quantities of a pose are computed from. */
export function settingsOf(document: DesignDocument): FieldSettings {
  const { errors, stiffness, load, clearance } = inputsOf(document);
  return { errors, stiffness, load, clearance };
}

const floors = new WeakMap<DesignDocument, readonly Floor[]>();

/** The floors under which a design's poses do not count as usable; the same document object always gives the same object. */
export function floorsOf(document: DesignDocument): readonly Floor[] {
  let known = floors.get(document);
  if (!known) {
    known = floorsFromDocument(document);
    floors.set(document, known);
  }
  return known;
}
