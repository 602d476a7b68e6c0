import { compileMechanism } from '../kinematics/mechanism.ts';
import type { Box } from '../reach/columns/bounding-box.ts';
import { type UsableReach, usableReach } from '../reach/columns/usable.ts';
import { type CutQuestion, type FieldCut, fieldCut } from '../reach/field/field-cut.ts';
import type { FieldSettings } from '../reach/field/field-settings.ts';
import { type SignSurface, signSurface } from '../reach/field/field-sign-surface.ts';
import type { Floor } from '../terms/quantities.ts';
import { type FieldPicture, type FieldPlaces, fieldPicture } from './field-picture.ts';
import { foundOrThrow } from './outcome.ts';
import type { ReachQuestion } from './reach-question.ts';

/** A layout, an orientation, and what its field is computed from. Plain data. */
export interface FieldQuestion extends ReachQuestion {
  readonly settings: FieldSettings;
}

/** The jobs about fields that a worker runs; the same functions serve tests. */
export const fieldJobs = {
  field: ({ spec, R_BP, settings }: FieldQuestion, places: FieldPlaces): FieldPicture =>
    foundOrThrow(fieldPicture(compileMechanism(spec), R_BP, settings, places)),
  cut: ({ spec, R_BP, settings }: FieldQuestion, question: CutQuestion): FieldCut =>
    foundOrThrow(fieldCut(compileMechanism(spec), R_BP, settings, question)),
  signs: ({ spec, R_BP, settings }: FieldQuestion, box: Box): SignSurface =>
    foundOrThrow(signSurface(compileMechanism(spec), R_BP, settings, box)),
  usable: ({ spec, R_BP, settings }: FieldQuestion, floors: readonly Floor[]): UsableReach =>
    foundOrThrow(usableReach(compileMechanism(spec), R_BP, settings, floors)),
};

export type FieldJobs = typeof fieldJobs;
