import type { Camera, Scene } from 'three';
import type { DesignDocument } from '../../document/design.ts';
import type { ReachPicture } from '../../jobs/reach-picture.ts';
import type { CutPlane } from '../../reach/field/field-cut.ts';
import { cutPlace, cutPlane, pictureBox } from '../../state/reach/cut-plane.ts';
import { isFieldColouring, type SessionState } from '../../state/session/session-store.ts';
import { fieldStore, sessionStore } from '../../state/stores.ts';
import { FieldDrawing } from '../drawing/field-drawing.ts';
import type { FrameUniforms } from '../drawing/frame-uniforms.ts';
import type { ReachDrawing } from '../drawing/reach-drawing.ts';
import { PaintKeeper, type ReachPaint, scaleOf } from '../model/reach-paint.ts';
import { CutHandle } from './cut-handle.ts';

interface FieldDirectorParts {
  readonly scene: Scene;
  readonly uniforms: FrameUniforms;
  /** The reach that the field colours and the cut opens. */
  readonly reach: ReachDrawing;
  readonly camera: Camera;
  readonly element: HTMLElement;
  /** Asks for one frame. */
  readonly invalidate: () => void;
  readonly onDragging: (dragging: boolean) => void;
}

/** The drawn reach as it is on screen. */
export interface DrawnReach {
  readonly document: DesignDocument;
  readonly session: SessionState;
  readonly picture: ReachPicture | null;
  readonly stale: boolean;
}

/** Brings the field over the reach to the drawing: colours, the section and its handle, the surfaces of zero force. */
export class FieldDirector {
  readonly handle: CutHandle;
  private readonly parts: FieldDirectorParts;
  private readonly drawing: FieldDrawing;
  private readonly paints = new PaintKeeper();

  constructor(parts: FieldDirectorParts) {
    this.parts = parts;
    this.drawing = new FieldDrawing(parts.uniforms, parts.reach.opening);
    parts.scene.add(this.drawing.object);
    this.handle = new CutHandle(parts.camera, parts.element, parts.scene, {
      onChange: parts.invalidate,
      onDragging: parts.onDragging,
      onPlace: (at) => sessionStore.setState(({ cut }) => ({ cut: { ...cut, at } })),
    });
  }

  /** Colours of the reach by its field; null where there is none. */
  paint({ picture, document, session }: DrawnReach): ReachPaint | null {
    return this.paints.follow(picture, fieldStore.getState(), session.reachColouring, document);
  }

  /** Redraws the section and the surfaces. */
  update({ document, session, picture, stale }: DrawnReach): void {
    const { cut, signs, field } = fieldStore.getState();
    const box = picture && pictureBox(picture);
    const plane = box && session.cut.shown ? planeOf(box, document, session) : null;
    const { reachColouring } = session;
    const own = field.finished?.subject.picture === picture ? field.finished?.value : null;
    const shown = cut.finished?.value ?? null;
    const scale = own && shown && shown.quantity !== 'magnification' ? scaleOf(own, shown.quantity) : null;
    const fits = shown !== null && shown.plane.axis === plane?.axis;
    const waiting = isFieldColouring(reachColouring) && (scale === null || shown?.quantity !== reachColouring);
    this.drawing.update({
      plane,
      cut: fits ? shown : null,
      style: {
        scale,
        byLimit: reachColouring === 'limit',
        stale: stale || waiting || cut.finished?.subject.picture !== picture,
      },
      signs: session.signs.shown && signs.finished?.subject.picture === picture ? signs.finished.value : null,
      leg: session.signs.leg,
    });
    this.parts.reach.open(plane);
    this.handle.place(plane);
  }

  dispose(): void {
    this.handle.dispose();
    this.drawing.object.removeFromParent();
    this.drawing.dispose();
  }
}

function planeOf(box: Float64Array, document: DesignDocument, { cut, pose }: SessionState): CutPlane {
  return cutPlane(box, cut.axis, cutPlace(cut, document, pose));
}
