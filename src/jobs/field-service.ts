import type { Box } from '../reach/columns/bounding-box.ts';
import type { UsableReach } from '../reach/columns/usable.ts';
import type { CutQuestion, FieldCut } from '../reach/field/field-cut.ts';
import type { SignSurface } from '../reach/field/field-sign-surface.ts';
import type { Floor } from '../terms/quantities.ts';
import type { FieldQuestion } from './field-jobs.ts';
import type { FieldPicture, FieldPlaces } from './field-picture.ts';
import type { JobOutcome } from './outcome.ts';

/** Whoever computes fields over the reach; of each kind only the newest question is answered. No promise rejects. */
export interface FieldService {
  field(question: FieldQuestion, places: FieldPlaces): Promise<JobOutcome<FieldPicture>>;
  cut(question: FieldQuestion, cut: CutQuestion): Promise<JobOutcome<FieldCut>>;
  signs(question: FieldQuestion, box: Box): Promise<JobOutcome<SignSurface>>;
  usable(question: FieldQuestion, floors: readonly Floor[]): Promise<JobOutcome<UsableReach>>;
}
