import type { DesignDocument } from '../document/design.ts';
import { floorsFromDocument } from '../document/floors.ts';
import { type JudgementInputs, judgementInputs } from '../document/judgement-inputs.ts';
import type { FieldSettings } from '../reach/field-point.ts';
import type { Floor } from '../reach/usable-cutter.ts';
import { compiledDesign } from './derived.ts';

const inputs = new WeakMap<DesignDocument, JudgementInputs>();

/** What a design's judgements are computed from; the same document object always gives the same object. */
export function inputsOf(document: DesignDocument): JudgementInputs {
  let known = inputs.get(document);
  if (!known) {
    known = judgementInputs(document, compiledDesign(document).mechanism);
    inputs.set(document, known);
  }
  return known;
}

/** The part of them that the quantities of a pose need. */
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
