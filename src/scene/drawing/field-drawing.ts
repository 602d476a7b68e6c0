import { Group } from 'three';
import type { CutPlane, FieldCut, SignLeg } from '../../reach/field/field-cut.ts';
import type { SignSurface } from '../../reach/field/field-sign-surface.ts';
import { INK } from '../colour/inks.ts';
import { CutDrawing, type CutStyle, cutCorners } from './cut-drawing.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { InkLines, type Pen } from './ink-lines.ts';
import type { ReachUniforms } from './reach-material.ts';
import { SignDrawing } from './sign-drawing.ts';

/** What of the field is drawn besides the colours of the reach itself. */
export interface FieldView {
  /** The plane as it is asked for; null: none. */
  readonly plane: CutPlane | null;
  /** The section, which may lag behind the plane. */
  readonly cut: FieldCut | null;
  readonly style: CutStyle;
  readonly signs: SignSurface | null;
  readonly leg: SignLeg;
}

const FRAME_PEN: Pen = { ink: INK.accent, width: 1.1, opacity: 0.55 };

/** Length of the dashes of the frame as a share of its longer side. */
const DASH_SHARE = 0.02;

/** The section of the reach with the frame of its plane, and the surfaces of zero force. */
export class FieldDrawing {
  readonly object = new Group();
  private readonly cut: CutDrawing;
  private readonly signs: SignDrawing;
  private readonly frame: InkLines;

  /** @param cutPlane the plane that opens the reach, shared with its shell and cloud */
  constructor(frame: FrameUniforms, cutPlane: ReachUniforms['cutPlane']) {
    this.cut = new CutDrawing(frame);
    this.signs = new SignDrawing(frame, cutPlane);
    this.frame = new InkLines(frame, 256);
    this.object.add(this.cut.object, this.signs.object, this.frame.object);
  }

  update({ plane, cut, style, signs, leg }: FieldView): void {
    this.cut.update(plane ? cut : null, style);
    this.signs.update(signs, leg);
    this.frame.begin();
    if (plane) {
      const corners = cutCorners(plane);
      const dash = DASH_SHARE * Math.max(plane.high[0] - plane.low[0], plane.high[1] - plane.low[1]);
      corners.forEach((corner, n) => {
        this.frame.dashes(corner, corners[(n + 1) % 4], dash, FRAME_PEN);
      });
    }
    this.frame.end();
  }

  dispose(): void {
    this.cut.dispose();
    this.signs.dispose();
    this.frame.dispose();
  }
}
