import { Color, type Scene, SRGBColorSpace, type WebGLRenderer } from 'three';
import { type DesignState, liveDocument } from '../../state/design/design-store.ts';
import { meshOf, payloadMeshStore } from '../../state/mesh/payload-mesh-store.ts';
import { isCurrent, type ResultsState } from '../../state/reach/results-store.ts';
import { sayFirstView } from '../../state/session/first-view.ts';
import { reachPose, type SessionState } from '../../state/session/session-store.ts';
import { compareStore, designStore, fieldStore, pointedStore, resultsStore, sessionStore } from '../../state/stores.ts';
import { INK, readPalette } from '../colour/inks.ts';
import { newFrameUniforms } from '../drawing/frame-uniforms.ts';
import { PointedDrawing } from '../drawing/pointed-drawing.ts';
import { Stage } from '../drawing/stage.ts';
import { comparedShells } from '../model/compared-shells.ts';
import { outlinePoints } from '../model/outline-points.ts';
import { PinnedShell } from '../model/pinned-shell.ts';
import { type SceneView, sceneView } from '../model/scene-view.ts';
import { Staleness } from '../model/staleness.ts';
import { poseWarnings } from '../model/warnings.ts';
import { CameraRig } from './camera-rig.ts';
import type { CornerTriad } from './corner-triad.ts';
import { FieldDirector } from './field-director.ts';
import { followLegPointer } from './leg-pointer.ts';
import { followMedia, followTheme, REDUCED_MOTION } from './media.ts';
import type { PinnedLabels } from './pinned-labels.ts';
import { PlatformHandle } from './platform-handle.ts';

/** What the drawing is made with. */
export interface DirectorParts {
  readonly renderer: WebGLRenderer;
  readonly scene: Scene;
  /** Asks for one frame. */
  readonly invalidate: () => void;
  /** Says that another camera is in use. */
  readonly onCamera: (camera: CameraRig['camera']) => void;
  readonly labels: PinnedLabels;
  readonly triad: CornerTriad;
}

/** Height up to which the foot stands below the drawing, as in the view's style sheet [CSS px]. */
const FOOT_UNDER = 330;

/** Room that a fit leaves free for what lies over the picture [CSS px]: tool bar above, legend below or the scale bar alone, a margin at the sides. */
const INSETS = { top: 50, bottom: 78, side: 14 };

/** The same where tools stand in the corners only and the legend below: most of the height is the platform's. */
const NARROW_INSETS = { top: 14, bottom: 24, side: 14 };

/** A drawing less high than this [CSS px] has no room for letters and numbers, which would hide it. */
const LABELLED_HEIGHT = 170;

/** Up to this width of the view what lies at its foot stands below the drawing instead: viewport.module.css has the same [CSS px]. */
const FOOT_BELOW = 520;

/**
 * Brings the stores to the drawing. Changes only mark it as out of date and ask for a frame; the frame then redraws once, however
 * many there were. Without changes there is no frame.
 */
export class SceneDirector {
  readonly rig: CameraRig;
  private readonly parts: DirectorParts;
  private readonly uniforms = newFrameUniforms();
  private readonly stage: Stage;
  private readonly pointed: PointedDrawing;
  private readonly handle: PlatformHandle;
  private readonly field: FieldDirector;
  private readonly pinnedShell = new PinnedShell();
  private readonly staleness: Staleness;
  private readonly stops: (() => void)[];
  private outOfDate = true;
  private view: SceneView | null = null;
  private width = 0;
  private height = 0;
  private frames = 0;
  private fittedReach = false;
  private dragging = false;

  constructor(parts: DirectorParts) {
    this.parts = parts;
    const { renderer, scene, invalidate } = parts;
    const element = renderer.domElement;
    this.stage = new Stage(this.uniforms);
    this.pointed = new PointedDrawing(this.uniforms);
    scene.add(this.stage.root, this.pointed.object);
    this.rig = new CameraRig(element, invalidate);
    const onDragging = (dragging: boolean) => {
      this.dragging = dragging;
      this.rig.controls.enabled = !dragging;
    };
    const { camera } = this.rig;
    const { reach } = this.stage;
    this.field = new FieldDirector({ scene, uniforms: this.uniforms, reach, camera, element, invalidate, onDragging });
    this.handle = new PlatformHandle(camera, element, scene, {
      onChange: invalidate,
      onDragging,
      onPose: (pose) => sessionStore.setState({ pose }),
    });
    this.staleness = new Staleness((stale) => stale && this.redraw());
    this.readTheme();
    this.stops = [
      followTheme(() => this.readTheme()),
      followMedia(REDUCED_MOTION, () => this.redraw()),
      designStore.subscribe((now, before) => this.onDesign(now, before)),
      sessionStore.subscribe((now, before) => this.onSession(now, before)),
      compareStore.subscribe((now, before) => (now.overlaid || before.overlaid) && this.redraw()),
      payloadMeshStore.subscribe(() => this.redraw()),
      resultsStore.subscribe((now, before) => this.onResults(now, before)),
      fieldStore.subscribe((now, before) => FIELD_DRAWN.some((kind) => now[kind] !== before[kind]) && this.redraw()),
      pointedStore.subscribe(() => {
        this.drawPointed();
        invalidate();
      }),
      followLegPointer(element, {
        camera: () => this.rig.camera,
        target: () => this.stage.legs.target,
        free: () => !this.dragging && !this.handle.pointedAt && !this.field.handle.pointedAt,
        onLeg: (highlightedLeg) => sessionStore.setState({ highlightedLeg }),
      }),
    ];
    const { projection, handle } = sessionStore.getState();
    this.rig.setProjection(projection);
    this.handle.setMode(handle);
    this.adoptCamera();
    void document.fonts.ready.then(() => this.onFonts());
  }

  resize(width: number, height: number): void {
    this.width = width;
    this.height = height;
    this.rig.resize(width, height);
    this.stage.labels.object.visible = height >= LABELLED_HEIGHT;
    if (!this.rig.touched && this.view) this.fit('fit', true);
    this.parts.invalidate();
  }

  /** Called before every frame that is drawn. */
  frame(now: number): void {
    const { renderer, labels, triad, invalidate } = this.parts;
    if (this.outOfDate) this.update();
    if (this.rig.step(now)) invalidate();
    renderer.getDrawingBufferSize(this.uniforms.resolution.value);
    this.uniforms.pixelRatio.value = renderer.getPixelRatio();
    const { camera } = this.rig;
    camera.updateMatrixWorld();
    labels.place(camera, this.width, this.height);
    triad.place(camera);
    this.frames += 1;
    renderer.domElement.dataset['frames'] = String(this.frames);
    if (this.frames === 1) sayFirstView();
  }

  /** Draws from the model anew after a lost context: the renderer has forgotten its ground colour, too. */
  rebuild(): void {
    this.readTheme();
  }

  dispose(): void {
    for (const stop of this.stops) stop();
    this.staleness.stop();
    this.parts.labels.clear();
    this.handle.dispose();
    this.field.dispose();
    this.rig.dispose();
    this.stage.root.removeFromParent();
    this.stage.dispose();
    this.pointed.object.removeFromParent();
    this.pointed.dispose();
  }

  private redraw(): void {
    this.outOfDate = true;
    this.parts.invalidate();
  }

  private update(): void {
    this.outOfDate = false;
    const session = sessionStore.getState();
    const document = liveDocument(designStore.getState());
    const finished = resultsStore.getState().picture.finished;
    const current = finished !== null && isCurrent(finished.subject, document, reachPose(session));
    this.staleness.follow(current, finished?.subject);
    const first = this.view === null;
    const view = sceneView(document, session, matchMedia(REDUCED_MOTION).matches);
    this.view = view;
    const pinnedShell = this.pinnedShell.follow(session.pinned, finished);
    const drawn = { document, session, picture: finished?.value ?? null, stale: this.staleness.stale };
    this.stage.draw(view, {
      showCones: session.showCones,
      showFrames: session.showFrames,
      highlightedLeg: session.highlightedLeg,
      reach: {
        picture: drawn.picture,
        kind: session.reachDrawing,
        colouring: session.reachColouring,
        stale: drawn.stale,
        paint: this.field.paint(drawn),
      },
      comparedShells: comparedShells(compareStore.getState(), document, session.pinned),
      payloadMesh: meshOf(document, payloadMeshStore.getState()),
      ghostShell: session.hovered ? null : pinnedShell,
    });
    this.drawPointed();
    this.field.update(drawn);
    this.handle.place(view.pose);
    this.handle.setMode(view.loose ? 'off' : session.handle);
    this.parts.labels.show(poseWarnings(view));
    if (first) this.fit(session.cameraWish.view, true);
    else if (!this.fittedReach && current && !this.rig.touched) this.fit('fit', true);
    this.fittedReach ||= current;
  }

  /** By itself: the rest of the drawing stays as it is while a curve is followed. */
  private drawPointed(): void {
    if (!this.view) return;
    const layout = sessionStore.getState().hovered ? this.view.ghost : null;
    this.pointed.update(this.view.mechanism, pointedStore.getState(), layout);
  }

  private fit(view: SessionState['cameraWish']['view'], jump: boolean): void {
    if (!this.view || this.width === 0 || this.height === 0) return;
    const { reachDrawing } = sessionStore.getState();
    const finished = resultsStore.getState().picture.finished;
    const reach = reachDrawing === 'none' ? null : (finished?.value.shell.positions ?? null);
    const points = outlinePoints(this.view.mechanism, this.view.pose, reach, this.view.parts);
    const own = this.width <= FOOT_BELOW ? NARROW_INSETS : INSETS;
    const side = own.side / this.width;
    const bottom = this.height <= FOOT_UNDER ? NARROW_INSETS.bottom : own.bottom;
    const insets = { top: own.top / this.height, bottom: bottom / this.height, left: side, right: side };
    this.rig.fit(points, view, insets, jump || matchMedia(REDUCED_MOTION).matches);
  }

  private onDesign(now: DesignState, before: DesignState): void {
    if (liveDocument(now) === liveDocument(before)) return;
    if (now.origin !== before.origin) {
      // another design: frame it as if it were the first, once its reach is known
      this.rig.touched = false;
      this.fittedReach = false;
    }
    this.redraw();
  }

  private onSession(now: SessionState, before: SessionState): void {
    if (now.projection !== before.projection) {
      this.rig.setProjection(now.projection);
      this.adoptCamera();
    }
    if (DRAWN.some((key) => now[key] !== before[key])) this.redraw();
    if (now.cameraWish.count !== before.cameraWish.count) {
      this.fit(now.cameraWish.view, false);
      this.parts.invalidate();
    }
  }

  private onResults(now: ResultsState, before: ResultsState): void {
    if (now.picture.finished !== before.picture.finished) this.redraw();
  }

  private onFonts(): void {
    this.stage.rewriteLabels();
    this.redraw();
  }

  private adoptCamera(): void {
    this.handle.setCamera(this.rig.camera);
    this.field.handle.setCamera(this.rig.camera);
    this.parts.onCamera(this.rig.camera);
  }

  private readTheme(): void {
    const { renderer } = this.parts;
    const { value } = this.uniforms.inks;
    readPalette(renderer.domElement, value);
    const colour = (ink: number) =>
      new Color().setRGB(value[3 * ink], value[3 * ink + 1], value[3 * ink + 2], SRGBColorSpace);
    renderer.setClearColor(colour(INK.paper));
    for (const handle of [this.handle, this.field.handle])
      handle.setColours(`#${colour(INK.accent).getHexString()}`, `#${colour(INK.warn).getHexString()}`);
    this.redraw();
  }
}

/** What of the field is drawn. */
const FIELD_DRAWN = ['field', 'cut', 'signs'] as const;

/** What of a session is drawn. */
const DRAWN = [
  'pose',
  'reachDrawing',
  'reachColouring',
  'cut',
  'signs',
  'reachOrientation',
  'showCones',
  'showFrames',
  'clearanceShown',
  'handle',
  'looseMotion',
  'pinned',
  'hovered',
  'highlightedLeg',
] as const satisfies readonly (keyof SessionState)[];
