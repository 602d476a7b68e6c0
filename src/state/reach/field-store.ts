import { createStore } from 'zustand/vanilla';
import type { FieldPicture } from '../../jobs/field-picture.ts';
import type { ReachPicture } from '../../jobs/reach-picture.ts';
import type { UsableReach } from '../../reach/columns/usable.ts';
import type { FieldCut } from '../../reach/field/field-cut.ts';
import type { SignSurface } from '../../reach/field/field-sign-surface.ts';
import type { Outcome, ReachSubject } from './results-store.ts';

/** What a field, a cut or a surface was computed for: the drawn reach that it belongs to. */
export interface DrawnSubject {
  readonly picture: ReachPicture;
}

/** What the workers found last of the field over the reach, kind by kind. */
export interface FieldState {
  /** Every quantity at the points of the drawn reach. */
  readonly field: Outcome<FieldPicture, DrawnSubject>;
  /** Values on the plane that cuts it. */
  readonly cut: Outcome<FieldCut, DrawnSubject>;
  /** Where leg forces change sign. */
  readonly signs: Outcome<SignSurface, DrawnSubject>;
  /** What of the reach is usable; its subject says under which floors. */
  readonly usable: Outcome<UsableReach, ReachSubject>;
}

const NOTHING_YET = { finished: null, working: false, failure: null };

export const createFieldStore = () =>
  createStore<FieldState>()(() => ({
    field: NOTHING_YET,
    cut: NOTHING_YET,
    signs: NOTHING_YET,
    usable: NOTHING_YET,
  }));

export type FieldStore = ReturnType<typeof createFieldStore>;
